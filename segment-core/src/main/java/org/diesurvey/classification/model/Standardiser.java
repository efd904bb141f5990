package org.diesurvey.classification.model;

/**
 * Brings features to mean 0 and deviation 1 as in the training data, clips them, and puts absent
 * features at the mean.
 */
public final class Standardiser {
  /** Clipping in standard deviations. */
  public static final float CLIP = 4;

  private final float[] centre;
  private final float[] scale;

  public Standardiser(float[] centre, float[] scale) {
    this.centre = centre;
    this.scale = scale;
  }

  float[] centre() {
    return centre;
  }

  float[] scale() {
    return scale;
  }

  /** Learns centre and scale; absent values are left out, features that never vary get scale 1. */
  public static Standardiser learn(float[][] rows) {
    int n = rows[0].length;
    double[] sum = new double[n];
    double[] square = new double[n];
    long[] count = new long[n];
    for (float[] row : rows) {
      for (int f = 0; f < n; f++) {
        if (!Float.isNaN(row[f])) {
          sum[f] += row[f];
          square[f] += (double) row[f] * row[f];
          count[f]++;
        }
      }
    }
    float[] centre = new float[n];
    float[] scale = new float[n];
    for (int f = 0; f < n; f++) {
      double m = count[f] == 0 ? 0 : sum[f] / count[f];
      double v = count[f] == 0 ? 0 : square[f] / count[f] - m * m;
      centre[f] = (float) m;
      scale[f] = v > 1e-10 ? (float) Math.sqrt(v) : 1;
    }
    return new Standardiser(centre, scale);
  }

  /** Writes the standardised features of a row. */
  public void apply(float[] row, float[] out) {
    for (int f = 0; f < out.length; f++) {
      float v = row[f];
      if (Float.isNaN(v)) {
        out[f] = 0;
      } else {
        float z = (v - centre[f]) / scale[f];
        out[f] = Math.max(-CLIP, Math.min(CLIP, z));
      }
    }
  }
}
