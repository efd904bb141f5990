package org.diesurvey.features;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Names and order of the features of a tile. Names tell the physical scale; a model is valid for
 * one schema only.
 *
 * @param names one per feature, unique, in order
 */
public record FeatureSchema(List<String> names) {
  /** Windows over which sums are pooled. */
  enum Window {
    SMALL(1),
    MIDDLE(3),
    LARGE(7);

    /** Tiles to each side of the middle one. */
    final int reach;

    Window(int reach) {
      this.reach = reach;
    }

    private String label() {
      return String.format(Locale.ROOT, "w%02d ", 2 * reach + 1);
    }
  }

  /** Directions of a window: the one whose periods are plainer, then the other. */
  enum Direction {
    FIRM,
    LOOSE;

    private String label() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** What is told of a direction's own period, whatever its size; last of its features. */
  enum OwnPeriod {
    RISE("own period rise"),
    REPEATS("own period repeats"),
    /** Base-2 logarithm of the period in um. */
    LAG("own period"),
    OVER_ROWS("own period over rows");

    private final String label;

    OwnPeriod(String label) {
      this.label = label;
    }
  }

  /** Features of one direction of one window: peaks, half width, persistence, mean, own period. */
  private static final int PER_DIRECTION =
      LagCurve.PEAK_OCTAVES_UM.length
          + 2 * (LagCurve.RANGES_UM.length - 1)
          + OwnPeriod.values().length;

  /** Features that are the same for all tiles of a die, behind those of the windows. */
  private static final int OF_THE_DIE = 1;

  /** Copies the list. */
  public FeatureSchema {
    names = List.copyOf(names);
  }

  /** Features of one window. */
  static int perWindow() {
    return (CURRENT.names.size() - OF_THE_DIE) / Window.values().length;
  }

  /** First column of a window. */
  static int column(Window window) {
    return window.ordinal() * perWindow();
  }

  /** Column of what is told of an own period. */
  static int column(Window window, Direction direction, OwnPeriod what) {
    int end = column(window) + (direction.ordinal() + 1) * PER_DIRECTION;
    return end - OwnPeriod.values().length + what.ordinal();
  }

  /** Column of the sampling, the same for all tiles of a die. */
  static int samplingColumn() {
    return CURRENT.names.size() - OF_THE_DIE;
  }

  /** Number of features. */
  public int size() {
    return names.size();
  }

  /** The schema of this version of the software. */
  public static final FeatureSchema CURRENT = build();

  private static FeatureSchema build() {
    List<String> names = new ArrayList<>();
    for (Window window : Window.values()) {
      String w = window.label();
      for (Direction d : Direction.values()) {
        String direction = d.label();
        for (int o = 0; o + 1 < LagCurve.PEAK_OCTAVES_UM.length; o++) {
          names.add(w + direction + " peak from " + LagCurve.PEAK_OCTAVES_UM[o] + " um");
        }
        for (int r = 0; r + 1 < LagCurve.RANGES_UM.length; r++) {
          names.add(w + direction + " persistence from " + LagCurve.RANGES_UM[r] + " um");
        }
        for (int r = 0; r + 1 < LagCurve.RANGES_UM.length; r++) {
          names.add(w + direction + " mean from " + LagCurve.RANGES_UM[r] + " um");
        }
        names.add(w + direction + " half width");
        for (OwnPeriod own : OwnPeriod.values()) {
          names.add(w + direction + " " + own.label);
        }
      }
      names.add(w + "contrast");
      names.add(w + "contrast over die");
      names.add(w + "contrast over what shows best");
      for (double band : TextureSums.BAND_UM) {
        names.add(w + "energy share " + band + " um");
      }
      for (double band : TextureSums.BAND_UM) {
        names.add(w + "kurtosis " + band + " um");
      }
      for (double band : TextureSums.BAND_UM) {
        names.add(w + "skewness " + band + " um");
      }
      for (double scale : TextureSums.GRADIENT_UM) {
        names.add(w + "anisotropy " + scale + " um");
        names.add(w + "axis alignment " + scale + " um");
      }
      for (int band : TextureSums.SPOT_BANDS) {
        names.add(w + "bright spots " + TextureSums.BAND_UM[band] + " um");
        names.add(w + "dark spots " + TextureSums.BAND_UM[band] + " um");
      }
      for (String what : Evenness.NAMES) {
        names.add(w + "unevenness of " + what);
      }
    }
    names.add("sampling");
    return new FeatureSchema(names);
  }
}
