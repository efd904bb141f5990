package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import org.diesurvey.classification.SurfaceClass;

/** Labelled tiles of drawn dies, balanced per die: every die counts alike, whatever its size. */
public final class TrainingSet {
  private final int perClassAndDie;
  private final List<float[]> rows = new ArrayList<>();
  private final List<Integer> labels = new ArrayList<>();
  private final List<Integer> dies = new ArrayList<>();
  private final List<Boolean> leftOut = new ArrayList<>();

  /**
   * @param perClassAndDie at most this many tiles of one class are taken from one die, twice as
   *     many of bare ground, which is the commonest surface of real chips
   */
  public TrainingSet(int perClassAndDie) {
    this.perClassAndDie = perClassAndDie;
  }

  /**
   * Adds a sample of a die's tiles. Dies must be added in a fixed order for a repeatable model.
   *
   * @param row features of a tile of the die
   * @param classes true surface class ordinal a tile; negative for tiles that are mixed, damaged or
   *     not on the die
   * @param die number of the die, also the seed of the sample
   */
  public void add(IntFunction<float[]> row, int[] classes, int die) {
    add(row, classes, t -> false, die, leftOut(die));
  }

  /**
   * The same for a die of which the caller says more.
   *
   * @param busy bare tiles that show something all the same: scratches, dust, the neighbourhood of
   *     blocks; they make up half of the sample of bare tiles, or as many as there are
   * @param out whether the model that is judged must not see the die
   */
  public void add(
      IntFunction<float[]> row, int[] classes, IntPredicate busy, int die, boolean out) {
    SplittableRandom random = new SplittableRandom(die);
    for (SurfaceClass c : SurfaceClass.values()) {
      List<Integer> tiles = new ArrayList<>();
      List<Integer> busyTiles = new ArrayList<>();
      for (int t = 0; t < classes.length; t++) {
        if (classes[t] == c.ordinal()) {
          boolean ofBusy = c == SurfaceClass.BARE && busy.test(t);
          (ofBusy ? busyTiles : tiles).add(t);
        }
      }
      int most = c == SurfaceClass.BARE ? 2 * perClassAndDie : perClassAndDie;
      int ofBusy = Math.min(busyTiles.size(), Math.max(most / 2, most - tiles.size()));
      sample(row, tiles, most - ofBusy, c, die, out, random);
      sample(row, busyTiles, ofBusy, c, die, out, random);
    }
  }

  private void sample(
      IntFunction<float[]> row,
      List<Integer> tiles,
      int most,
      SurfaceClass c,
      int die,
      boolean out,
      SplittableRandom random) {
    for (int i = 0; i < Math.min(most, tiles.size()); i++) {
      int j = i + random.nextInt(tiles.size() - i);
      int t = tiles.set(j, tiles.get(i));
      tiles.set(i, t);
      rows.add(row.apply(t).clone());
      labels.add(c.ordinal());
      dies.add(die);
      leftOut.add(out);
    }
  }

  /** Number of tiles. */
  public int size() {
    return rows.size();
  }

  /** Feature vectors of all tiles, or of those whose die is (not) left out. */
  float[][] rows(Which which) {
    return indices(which).stream().map(rows::get).toArray(float[][]::new);
  }

  /** Feature vectors of all tiles, die by die in the order in which the dies were added. */
  List<float[][]> rowsByDie() {
    List<float[][]> out = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= rows.size(); i++) {
      if (i == rows.size() || !dies.get(i).equals(dies.get(from))) {
        out.add(rows.subList(from, i).toArray(float[][]::new));
        from = i;
      }
    }
    return out;
  }

  int[] labels(Which which) {
    return indices(which).stream().mapToInt(labels::get).toArray();
  }

  /** Whether a die is left out of the fit whatever it shows: every tenth is. */
  public static boolean leftOut(int die) {
    return die % 10 == 9;
  }

  /** Which part of the set. */
  enum Which {
    ALL,
    FOR_FITTING,
    LEFT_OUT
  }

  private List<Integer> indices(Which which) {
    List<Integer> out = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      if (which == Which.ALL || leftOut.get(i) == (which == Which.LEFT_OUT)) {
        out.add(i);
      }
    }
    return out;
  }
}
