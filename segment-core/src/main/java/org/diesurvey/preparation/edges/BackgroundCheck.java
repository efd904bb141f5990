package org.diesurvey.preparation.edges;

import java.util.Arrays;
import java.util.List;

/**
 * Whether what lies around some rectangles can be the ground and not layout: the ground has a
 * colour that the layout inside hardly has, and hardly any other.
 */
final class BackgroundCheck {
  /** Share of the overview that must be ground: a thin strip proves nothing. */
  private static final double LEAST_GROUND = 0.003;

  /** Largest share of cells outside that are nearer to the die's colour. Chosen on drawn dies. */
  private static final double MOST_STRANGE = 0.2;

  /** The same, together with the share of cells inside that are nearer to the ground's colour. */
  private static final double MOST_MIXED = 0.25;

  /** Least distance of the die's median colour from the ground's, share of full scale. */
  private static final double LEAST_STEP = 0.03;

  private BackgroundCheck() {}

  static boolean stands(Overview overview, float[] ground, List<CoarseDieRectangle> dies) {
    int w = overview.width();
    int h = overview.height();
    double[] inside = new double[w * h];
    double[] outside = new double[w * h];
    int in = 0;
    int out = 0;
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double px = (x + 0.5) * overview.factor();
        double py = (y + 0.5) * overview.factor();
        double beyond = Double.MAX_VALUE;
        for (CoarseDieRectangle d : dies) {
          beyond = Math.min(beyond, d.beyond(px, py) / d.slackPx());
        }
        if (beyond < -1) {
          inside[in++] = overview.distance(y * w + x, ground);
        } else if (beyond > 1) {
          outside[out++] = overview.distance(y * w + x, ground);
        }
      }
    }
    if (out < LEAST_GROUND * w * h || in == 0) {
      return false;
    }
    double step = EdgeLine.median(Arrays.copyOf(inside, in));
    double close = Arrays.stream(inside, 0, in).filter(d -> d < step / 2).count() / (double) in;
    double far = Arrays.stream(outside, 0, out).filter(d -> d > step / 2).count() / (double) out;
    return step >= LEAST_STEP && far <= MOST_STRANGE && close + far <= MOST_MIXED;
  }
}
