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

  /** Copies the list. */
  public FeatureSchema {
    names = List.copyOf(names);
  }

  /** Features of one window. */
  static int perWindow() {
    return CURRENT.names.size() / WINDOW_REACH.length;
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
      }
      names.add(w + "contrast");
      names.add(w + "contrast over die");
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
    return new FeatureSchema(names);
  }
}
