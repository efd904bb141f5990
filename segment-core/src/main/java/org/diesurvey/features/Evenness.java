package org.diesurvey.features;

/**
 * Quantities per tile whose scatter over a window tells how even a surface is: memory arrays are
 * even, logic and macros are not.
 */
final class Evenness {
  static final String[] NAMES = {"grey", "1 um energy", "2 um energy", "4 um energy", "direction"};

  /** Variance of grey below which a band counts as empty; keeps logarithms finite. */
  private static final double FLOOR = 1e-7;

  private Evenness() {}

  /** One value per tile and name; 0 for tiles that were taken out. */
  static float[][] planes(float[][] texture) {
    int tiles = texture[0].length;
    float[][] out = new float[NAMES.length][tiles];
    for (int t = 0; t < tiles; t++) {
      if (texture[0][t] == 0) {
        continue;
      }
      double n = texture[0][t];
      out[0][t] = (float) (10 * texture[1][t] / n);
      for (int b = 1; b <= 3; b++) {
        out[b][t] = (float) (0.5 * Math.log(texture[TextureSums.bandPlane(b, 0)][t] / n + FLOOR));
      }
      double xx = texture[TextureSums.gradientPlane(0, 0)][t];
      double yy = texture[TextureSums.gradientPlane(0, 1)][t];
      out[4][t] = (float) ((xx - yy) / (xx + yy + FLOOR * n));
    }
    return out;
  }
}
