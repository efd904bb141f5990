package org.diesurvey.features;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/**
 * The picture with its local mean taken out and its local standard deviation brought to one,
 * clipped: what remains is the pattern, whatever the light and the contrast.
 */
final class LocalContrast {
  /** Side of the square for the mean, px of the level: longer than the longest lag. */
  private static final int MEAN_SIDE_PX = 31;

  /** Side of the square for the deviation, px of the level. */
  private static final int DEVIATION_SIDE_PX = 49;

  /** Contrast below which a surface counts as even, so that noise is not blown up to a pattern. */
  private static final float LEAST_DEVIATION = 0.002f;

  /** Clipping in standard deviations: a dust grain must not outweigh the pattern around it. */
  private static final float CLIP = 2.5f;

  private LocalContrast() {}

  /** Same size as the input; values within +-2.5. */
  static GrayRaster of(GrayRaster grey) {
    GrayRaster mean = ImageFilters.boxMean(grey, MEAN_SIDE_PX);
    float[] g = grey.array();
    float[] m = mean.array();
    float[] square = new float[g.length];
    for (int i = 0; i < g.length; i++) {
      float d = g[i] - m[i];
      m[i] = d;
      square[i] = d * d;
    }
    GrayRaster variance =
        ImageFilters.boxMean(
            GrayRaster.over(grey.width(), grey.height(), square), DEVIATION_SIDE_PX);
    float[] v = variance.array();
    float floor = LEAST_DEVIATION * LEAST_DEVIATION;
    for (int i = 0; i < g.length; i++) {
      float u = m[i] / (float) Math.sqrt(Math.max(0, v[i]) + floor);
      m[i] = Math.max(-CLIP, Math.min(CLIP, u));
    }
    return mean;
  }
}
