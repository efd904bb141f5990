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
  /** Windows over which sums are pooled, tiles to each side of the middle one. */
  static final int[] WINDOW_REACH = {1, 3, 7};

  static final String OWN_RISE = "own period rise";
  static final String OWN_REPEATS = "own period repeats";
  static final String OWN_LAG = "own period";
  static final String OWN_OVER_ROWS = "own period over rows";

  /** What is told of the pattern's own period, whatever its size. */
  private static final String[] OWN = {OWN_RISE, OWN_REPEATS, OWN_LAG, OWN_OVER_ROWS};

  /** Features that are the same for all tiles of a die, behind those of the windows. */
  private static final int OF_THE_DIE = 1;

  /** Copies the list. */
  public FeatureSchema {
    names = List.copyOf(names);
  }

  /** Features of one window. */
  static int perWindow() {
    return (CURRENT.names.size() - OF_THE_DIE) / WINDOW_REACH.length;
  }

  /** Features of one direction of one window. */
  static int perDirection() {
    return LagCurve.PEAK_OCTAVES_UM.length + 2 * (LagCurve.RANGES_UM.length - 1) + OWN.length;
  }

  /** Place of an own-measure feature among those of its direction. */
  static int own(String name) {
    return perDirection() - OWN.length + List.of(OWN).indexOf(name);
  }

  /** Number of features. */
  public int size() {
    return names.size();
  }

  /** The schema of this version of the software. */
  public static final FeatureSchema CURRENT = build();

  private static FeatureSchema build() {
    List<String> names = new ArrayList<>();
    for (int reach : WINDOW_REACH) {
      String w = String.format(Locale.ROOT, "w%02d ", 2 * reach + 1);
      for (String direction : new String[] {"firm", "loose"}) {
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
        for (String own : OWN) {
          names.add(w + direction + " " + own);
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
