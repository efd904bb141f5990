package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.BlockFeatures;

/** Blocks of drawn dies, each with the shares of the classes that its tiles truly show. */
public final class BlockSet {
  /** More tiles of a block do not make it count more. */
  private static final int MOST_TILES = 400;

  private final List<float[]> rows = new ArrayList<>();
  private final List<float[]> shares = new ArrayList<>();
  private final List<Float> weights = new ArrayList<>();
  private final List<Boolean> leftOut = new ArrayList<>();

  /**
   * Adds the blocks of a die. Dies must be added in a fixed order for a repeatable model.
   *
   * @param blocks described by classifiers that have not seen the die
   * @param classes true surface class ordinal a tile; negative where none is known
   * @param out whether the model that is judged must not see the die
   */
  public void add(BlockFeatures blocks, int[] classes, boolean out) {
    float[][] tiles = new float[blocks.count()][SurfaceClass.COUNT];
    int[] known = new int[blocks.count()];
    for (int t = 0; t < classes.length; t++) {
      if (classes[t] >= 0) {
        tiles[blocks.of(t)][classes[t]]++;
        known[blocks.of(t)]++;
      }
    }
    for (int b = 0; b < known.length; b++) {
      if (known[b] == 0) {
        continue;
      }
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        tiles[b][k] /= known[b];
      }
      rows.add(blocks.row(b));
      shares.add(tiles[b]);
      weights.add((float) Math.sqrt(Math.min(MOST_TILES, known[b])));
      leftOut.add(out);
    }
  }

  /** Number of blocks. */
  public int size() {
    return rows.size();
  }

  /**
   * The blocks of some dies.
   *
   * @param which dies
   */
  Part part(TrainingSet.Which which) {
    List<float[]> r = new ArrayList<>();
    List<float[]> s = new ArrayList<>();
    List<Float> w = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      if (which == TrainingSet.Which.ALL
          || leftOut.get(i) == (which == TrainingSet.Which.LEFT_OUT)) {
        r.add(rows.get(i));
        s.add(shares.get(i));
        w.add(weights.get(i));
      }
    }
    float[] weight = new float[w.size()];
    for (int i = 0; i < weight.length; i++) {
      weight[i] = w.get(i);
    }
    return new Part(r.toArray(float[][]::new), s.toArray(float[][]::new), weight);
  }

  /** Rows of blocks, the shares of their classes and what each counts. */
  static final class Part {
    final float[][] rows;
    final float[][] shares;
    final float[] weights;

    private Part(float[][] rows, float[][] shares, float[] weights) {
      this.rows = rows;
      this.shares = shares;
      this.weights = weights;
    }
  }
}
