package org.diesurvey.classification.model;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;

/**
 * What each block of tiles shows as a whole, as features for the third classifier: mean and spread
 * of its tiles' evidence and features, how it differs from the die, what it adjoins, its size and
 * form, and what the die holds. Lengths count in tiles.
 */
public final class BlockFeatures {
  private static final int K = SurfaceClass.COUNT;

  /** Size, fill of the bounds, two of the form, length of the border, at the edge, share. */
  private static final int FORM = 7;

  private static final float FLOOR = 0.01f;

  /** Least deviation over a die that a difference is divided by, of the training deviation. */
  private static final float LEAST_DEVIATION = 0.1f;

  /** A tile shows something from this above the die's tenth part of least contrast, log. */
  private static final double SHOWS = 0.4;

  /** With fewer tiles that show something all are taken. */
  private static final int FEWEST_SHOWING = 50;

  /** Blocks that come nearer to the picture's border than this touch it, tiles. */
  private static final int NEAR_EDGE = 3;

  private final TileBlocks blocks;
  private final int own;
  private final float[][] rows;

  private BlockFeatures(TileBlocks blocks, int own) {
    this.blocks = blocks;
    this.own = own;
    this.rows = new float[blocks.count()][size(own)];
  }

  /**
   * Number of features of a block.
   *
   * @param own features of a tile
   */
  static int size(int own) {
    return K + K + (K + 1) + FORM + 3 * own + K;
  }

  /**
   * Divides the tiles into blocks and describes them; runs on the calling thread's fork-join pool.
   *
   * @param evidence of the tiles
   * @param standardiser of the first classifier
   * @param onDie tiles that show the die
   */
  static BlockFeatures of(
      FeatureTable features,
      TileProbabilities evidence,
      Standardiser standardiser,
      boolean[] onDie) {
    BlockFeatures out =
        new BlockFeatures(TileBlocks.of(evidence, features), standardiser.centre().length);
    out.evidence(evidence);
    out.form(out.borders(evidence));
    out.features(features, standardiser, showing(features, onDie));
    return out;
  }

  /** Number of blocks. */
  public int count() {
    return rows.length;
  }

  /** Features of a block; not to be changed. */
  public float[] row(int block) {
    return rows[block];
  }

  /** Block of a tile. */
  public int of(int tile) {
    return blocks.of(tile);
  }

  private void evidence(TileProbabilities evidence) {
    int tiles = blocks.grid().count();
    double[][] sum = new double[rows.length][2 * K + 1];
    double[] all = new double[K];
    for (int t = 0; t < tiles; t++) {
      double[] s = sum[blocks.of(t)];
      for (SurfaceClass c : SurfaceClass.values()) {
        double p = evidence.get(t, c);
        s[c.ordinal()] += p;
        s[K + c.ordinal()] += p * p;
        all[c.ordinal()] += p;
      }
      s[2 * K]++;
    }
    for (int b = 0; b < rows.length; b++) {
      double n = sum[b][2 * K];
      for (int k = 0; k < K; k++) {
        double mean = sum[b][k] / n;
        rows[b][k] = log(mean);
        rows[b][K + k] = (float) Math.sqrt(Math.max(0, sum[b][K + k] / n - mean * mean));
        rows[b][rows[b].length - K + k] = log(all[k] / tiles);
      }
    }
  }

  private static float log(double p) {
    return (float) Math.log(p + FLOOR);
  }

  /**
   * Shares of the border along tiles of each class, and along the border of the picture.
   *
   * @return length of each block's border, sides of tiles
   */
  private double[] borders(TileProbabilities evidence) {
    TileGrid grid = blocks.grid();
    int at = 2 * K;
    double[] length = new double[rows.length];
    for (int t = 0; t < grid.count(); t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      int b = blocks.of(t);
      for (int side = 0; side < 4; side++) {
        int row = r + (side == 0 ? -1 : side == 1 ? 1 : 0);
        int column = c + (side == 2 ? -1 : side == 3 ? 1 : 0);
        boolean outside = row < 0 || column < 0 || row >= grid.rows() || column >= grid.columns();
        int n = row * grid.columns() + column;
        if (outside || blocks.of(n) != b) {
          rows[b][at + (outside ? K : evidence.best(n).ordinal())]++;
          length[b]++;
        }
      }
    }
    for (int b = 0; b < rows.length; b++) {
      for (int k = 0; k <= K; k++) {
        rows[b][at + k] /= (float) Math.max(1, length[b]);
      }
    }
    return length;
  }

  /**
   * Size and form.
   *
   * @param border length of each block's border, sides of tiles
   */
  private void form(double[] border) {
    TileGrid grid = blocks.grid();
    int[][] bounds = new int[rows.length][];
    int[] tiles = new int[rows.length];
    for (int t = 0; t < grid.count(); t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      int b = blocks.of(t);
      tiles[b]++;
      if (bounds[b] == null) {
        bounds[b] = new int[] {r, r, c, c};
      }
      bounds[b][0] = Math.min(bounds[b][0], r);
      bounds[b][1] = Math.max(bounds[b][1], r);
      bounds[b][2] = Math.min(bounds[b][2], c);
      bounds[b][3] = Math.max(bounds[b][3], c);
    }
    int at = 3 * K + 1;
    for (int b = 0; b < rows.length; b++) {
      int[] box = bounds[b];
      double height = box[1] - box[0] + 1;
      double width = box[3] - box[2] + 1;
      double n = tiles[b];
      int edge =
          Math.min(
              Math.min(box[0], box[2]),
              Math.min(grid.rows() - 1 - box[1], grid.columns() - 1 - box[3]));
      float[] row = rows[b];
      row[at] = (float) Math.log(n);
      row[at + 1] = (float) (n / (height * width));
      row[at + 2] = (float) Math.log(Math.max(height, width) / Math.min(height, width));
      row[at + 3] = (float) Math.log(Math.min(height, width));
      row[at + 4] = (float) Math.log(Math.max(1, border[b]) / Math.sqrt(n));
      row[at + 5] = edge < NEAR_EDGE ? 1 : 0;
      row[at + 6] = (float) (n / grid.count());
    }
  }

  /** Tiles of the die that show more than its plainest ground; all of it where those are few. */
  private static boolean[] showing(FeatureTable features, boolean[] onDie) {
    int n = onDie.length;
    double[] log = new double[n];
    double[] sorted = new double[n];
    int sound = 0;
    for (int t = 0; t < n; t++) {
      log[t] = Math.log(features.contrast(t) + 1e-4);
      if (onDie[t] && !features.damaged(t)) {
        sorted[sound++] = log[t];
      }
    }
    Arrays.sort(sorted, 0, sound);
    double least = sound == 0 ? 0 : sorted[sound / 10] + SHOWS;
    boolean[] out = new boolean[n];
    int count = 0;
    for (int t = 0; t < n; t++) {
      out[t] = onDie[t] && !features.damaged(t) && log[t] > least;
      count += out[t] ? 1 : 0;
    }
    if (count < FEWEST_SHOWING) {
      for (int t = 0; t < n; t++) {
        out[t] = sound == 0 || onDie[t] && !features.damaged(t);
      }
    }
    return out;
  }

  private void features(FeatureTable features, Standardiser standardiser, boolean[] showing) {
    double[][] sum = new double[rows.length + 1][own];
    double[][] squares = new double[rows.length + 1][own];
    int[] count = new int[rows.length + 1];
    FeatureTable.Vectors vectors = features.vectors();
    float[] z = new float[own];
    for (int t = 0; t < showing.length; t++) {
      standardiser.apply(vectors.of(t), z);
      add(z, blocks.of(t), sum, squares, count);
      if (showing[t]) {
        add(z, rows.length, sum, squares, count);
      }
    }
    int at = 3 * K + 1 + FORM;
    for (int f = 0; f < own; f++) {
      double dieMean = sum[rows.length][f] / Math.max(1, count[rows.length]);
      double dieDeviation =
          Math.max(
              LEAST_DEVIATION,
              deviation(sum[rows.length][f], squares[rows.length][f], count[rows.length]));
      for (int b = 0; b < rows.length; b++) {
        double mean = sum[b][f] / count[b];
        rows[b][at + f] = (float) mean;
        rows[b][at + own + f] = (float) deviation(sum[b][f], squares[b][f], count[b]);
        rows[b][at + 2 * own + f] = (float) ((mean - dieMean) / dieDeviation);
      }
    }
  }

  private static void add(float[] z, int to, double[][] sum, double[][] squares, int[] count) {
    double[] s = sum[to];
    double[] q = squares[to];
    for (int f = 0; f < z.length; f++) {
      s[f] += z[f];
      q[f] += (double) z[f] * z[f];
    }
    count[to]++;
  }

  private static double deviation(double sum, double squares, int count) {
    double n = Math.max(1, count);
    double mean = sum / n;
    return Math.sqrt(Math.max(0, squares / n - mean * mean));
  }
}
