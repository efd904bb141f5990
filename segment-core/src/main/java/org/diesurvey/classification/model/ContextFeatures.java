package org.diesurvey.classification.model;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.TileGrid;

/**
 * What the first classifier made of the surroundings of each tile, as features for the second: the
 * evidence of the tile itself, in squares around it, along its whole row and column, over the whole
 * die, and over what it flows to between alike neighbours; also contrast, likeness of the
 * neighbours and the distance to the die's edges. All lengths count in tiles.
 *
 * <p>The idea of classifying again on the first classifier's answers is auto-context (Tu 2008, from
 * memory).
 */
public final class ContextFeatures {
  /** Sides of the squares, tiles: 24 um to 1 mm. */
  private static final int[] SQUARES = {3, 7, 15, 31, 63, 127};

  /** Steps of the flow between alike neighbours. */
  private static final int[] FLOWS = {10, 40, 160};

  /** Distance beyond which the die's edge no longer matters, tiles: 600 um. */
  private static final float FAR = 75;

  private static final int K = SurfaceClass.COUNT;

  /** Number of features. */
  public static final int SIZE = K * (1 + SQUARES.length + FLOWS.length + 3) + 2 + 2 + 6 + 1;

  private static final float FLOOR = 0.01f;

  private final TileGrid grid;
  private final FeatureTable features;
  private final List<DieSide> sides;
  private final TileLinks links;
  private final float[] logs;
  private final BoxSums sums;
  private final float[][] flows;
  private final float middleContrast;
  private final float highContrast;

  private ContextFeatures(
      FeatureTable features, List<DieSide> sides, TileLinks links, float[] logs, float[][] flows) {
    this.grid = features.grid();
    this.features = features;
    this.sides = sides;
    this.links = links;
    this.logs = logs;
    this.flows = flows;
    int n = grid.count();
    float[] masked = new float[n * (K + 1)];
    float[] contrast = new float[n];
    for (int t = 0; t < n; t++) {
      if (!features.damaged(t)) {
        System.arraycopy(logs, t * K, masked, t * (K + 1), K);
        masked[t * (K + 1) + K] = 1;
      }
      contrast[t] = logContrast(t);
    }
    this.sums = new BoxSums(masked, K + 1, grid.columns(), grid.rows());
    Arrays.sort(contrast);
    this.middleContrast = contrast[n / 2];
    this.highContrast = contrast[n * 9 / 10];
  }

  /**
   * Prepares the surroundings; runs on the calling thread's fork-join pool.
   *
   * @param first answers of the first classifier
   * @param standardiser of the first classifier
   */
  static ContextFeatures of(
      FeatureTable features,
      TileProbabilities first,
      Standardiser standardiser,
      List<DieSide> sides) {
    int n = features.grid().count();
    float[] logs = new float[n * K];
    for (int t = 0; t < n; t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        logs[t * K + c.ordinal()] = (float) Math.log(first.get(t, c) + FLOOR);
      }
    }
    TileLinks links = TileLinks.of(features, standardiser);
    float[][] flows = new float[K * FLOWS.length][];
    ContextFeatures plain = new ContextFeatures(features, sides, links, logs, flows);
    IntStream.range(0, K).parallel().forEach(k -> plain.flow(k));
    return plain;
  }

  private void flow(int k) {
    float[] plane = new float[grid.count()];
    double[] sum = new double[K + 1];
    for (int t = 0; t < plane.length; t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      sums.sum(r - 1, r + 2, c - 1, c + 2, sum);
      plane[t] = sum[K] > 0 ? (float) (sum[k] / sum[K]) : logs[t * K + k];
    }
    int done = 0;
    for (int f = 0; f < FLOWS.length; f++) {
      links.flow(plane, FLOWS[f] - done);
      done = FLOWS[f];
      flows[f * K + k] = plane.clone();
    }
  }

  /** Writes the features of a tile. */
  void write(int tile, float[] out) {
    int r = tile / grid.columns();
    int c = tile % grid.columns();
    int at = 0;
    System.arraycopy(logs, tile * K, out, at, K);
    at += K;
    for (int side : SQUARES) {
      int reach = side / 2;
      at = mean(r - reach, r + reach + 1, c - reach, c + reach + 1, out, at);
    }
    for (int f = 0; f < FLOWS.length; f++) {
      for (int k = 0; k < K; k++) {
        out[at++] = flows[f * K + k][tile];
      }
    }
    at = mean(r, r + 1, 0, grid.columns(), out, at);
    at = mean(0, grid.rows(), c, c + 1, out, at);
    at = mean(0, grid.rows(), 0, grid.columns(), out, at);
    out[at++] = logContrast(tile) - middleContrast;
    out[at++] = logContrast(tile) - highContrast;
    out[at++] = (float) Math.log1p(links.rightDistance(tile));
    out[at++] = (float) Math.log1p(links.downDistance(tile));
    float[] edge = {
      sides.contains(DieSide.LEFT) ? c : FAR,
      sides.contains(DieSide.RIGHT) ? grid.columns() - 1 - c : FAR,
      sides.contains(DieSide.UPPER) ? r : FAR,
      sides.contains(DieSide.LOWER) ? grid.rows() - 1 - r : FAR
    };
    for (int i = 0; i < edge.length; i++) {
      edge[i] = Math.min(1, edge[i] / FAR);
      out[at++] = edge[i];
    }
    Arrays.sort(edge);
    out[at++] = edge[0];
    out[at++] = edge[1];
    out[at++] = sides.isEmpty() ? 0 : 1;
    if (at != SIZE) {
      throw new IllegalStateException(at + " features of surroundings, " + SIZE + " promised");
    }
  }

  /** Mean evidence over a rectangle; 0 where it holds no sound tile. */
  private int mean(int fromRow, int toRow, int fromColumn, int toColumn, float[] out, int at) {
    double[] sum = new double[K + 1];
    boolean any = sums.sum(fromRow, toRow, fromColumn, toColumn, sum) && sum[K] > 0.5;
    for (int k = 0; k < K; k++) {
      out[at + k] = any ? (float) (sum[k] / sum[K]) : 0;
    }
    return at + K;
  }

  private float logContrast(int tile) {
    return (float) Math.log(features.contrast(tile) + 1e-4);
  }
}
