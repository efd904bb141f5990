package org.diesurvey.classification.model;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.features.FeatureTable;

/**
 * How alike neighbouring tiles are, from the features of the smallest window: 1 for the same
 * texture, near 0 across the border of a block.
 */
final class TileLinks {
  private final int columns;
  private final int rows;
  private final float[] right;
  private final float[] down;
  private final float middle;

  private TileLinks(int columns, int rows, float[] right, float[] down, float middle) {
    this.columns = columns;
    this.rows = rows;
    this.right = right;
    this.down = down;
    this.middle = middle;
  }

  static TileLinks of(FeatureTable features, Standardiser standardiser) {
    int columns = features.grid().columns();
    int rows = features.grid().rows();
    int n = columns * rows;
    int used = FeatureTable.smallestWindowFeatures();
    float[] right = new float[n];
    float[] down = new float[n];
    IntStream.range(0, rows)
        .parallel()
        .forEach(
            r -> {
              FeatureTable.Vectors vectors = features.vectors();
              float[] own = new float[used];
              float[] other = new float[used];
              for (int c = 0; c < columns; c++) {
                int t = r * columns + c;
                standardiser.apply(vectors.of(t), own);
                if (c + 1 < columns) {
                  standardiser.apply(vectors.of(t + 1), other);
                  right[t] = distance(own, other);
                }
                if (r + 1 < rows) {
                  standardiser.apply(vectors.of(t + columns), other);
                  down[t] = distance(own, other);
                }
              }
            });
    return new TileLinks(columns, rows, right, down, middle(right, down));
  }

  /** Mean square of the differences. */
  private static float distance(float[] a, float[] b) {
    float sum = 0;
    for (int f = 0; f < a.length; f++) {
      float d = a[f] - b[f];
      sum += d * d;
    }
    return sum / a.length;
  }

  private static float middle(float[] right, float[] down) {
    float[] all = new float[right.length + down.length];
    int n = 0;
    for (float[] side : new float[][] {right, down}) {
      for (float d : side) {
        if (d > 0) {
          all[n++] = d;
        }
      }
    }
    if (n == 0) {
      return 1;
    }
    Arrays.sort(all, 0, n);
    return all[n / 2];
  }

  /** Distance to the right neighbour over the middle distance of the die; 0 in the last column. */
  float rightDistance(int tile) {
    return right[tile] / middle;
  }

  /** Distance to the neighbour below over the middle distance of the die; 0 in the last row. */
  float downDistance(int tile) {
    return down[tile] / middle;
  }

  /**
   * Lets values flow between alike tiles.
   *
   * @param values one plane, one value a tile; replaced
   * @param steps how often each tile takes the weighted mean of itself and its four neighbours
   */
  void flow(float[] values, int steps) {
    float[] toRight = conductance(right, 1);
    float[] toDown = conductance(down, columns);
    float[] next = new float[values.length];
    float[] from = values;
    float[] to = next;
    for (int s = 0; s < steps; s++) {
      step(from, to, toRight, toDown);
      float[] swap = from;
      from = to;
      to = swap;
    }
    if (from != values) {
      System.arraycopy(from, 0, values, 0, values.length);
    }
  }

  private float[] conductance(float[] distance, int stride) {
    float[] out = new float[distance.length];
    for (int t = 0; t < out.length; t++) {
      boolean border = stride == 1 ? t % columns == columns - 1 : t / columns == rows - 1;
      out[t] = border ? 0 : (float) Math.exp(-2 * distance[t] / middle);
    }
    return out;
  }

  private void step(float[] from, float[] to, float[] toRight, float[] toDown) {
    for (int r = 0; r < rows; r++) {
      if (r > 0 && r < rows - 1) {
        inner(from, to, toRight, toDown, r * columns + 1, (r + 1) * columns - 1);
        at(r, 0, from, to, toRight, toDown);
        at(r, columns - 1, from, to, toRight, toDown);
      } else {
        for (int c = 0; c < columns; c++) {
          at(r, c, from, to, toRight, toDown);
        }
      }
    }
  }

  /** Tiles with four neighbours; without branches, so that the compiler vectorises it. */
  private void inner(
      float[] from, float[] to, float[] toRight, float[] toDown, int first, int end) {
    int n = columns;
    for (int t = first; t < end; t++) {
      float weight = 1 + toRight[t - 1] + toRight[t] + toDown[t - n] + toDown[t];
      float sum =
          from[t]
              + toRight[t - 1] * from[t - 1]
              + toRight[t] * from[t + 1]
              + toDown[t - n] * from[t - n]
              + toDown[t] * from[t + n];
      to[t] = sum / weight;
    }
  }

  private void at(int r, int c, float[] from, float[] to, float[] toRight, float[] toDown) {
    int t = r * columns + c;
    float weight = 1;
    float sum = from[t];
    if (c > 0) {
      weight += toRight[t - 1];
      sum += toRight[t - 1] * from[t - 1];
    }
    if (c < columns - 1) {
      weight += toRight[t];
      sum += toRight[t] * from[t + 1];
    }
    if (r > 0) {
      weight += toDown[t - columns];
      sum += toDown[t - columns] * from[t - columns];
    }
    if (r < rows - 1) {
      weight += toDown[t];
      sum += toDown[t] * from[t + columns];
    }
    to[t] = sum / weight;
  }
}
