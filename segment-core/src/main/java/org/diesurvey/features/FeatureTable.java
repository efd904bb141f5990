package org.diesurvey.features;

import java.util.Optional;
import java.util.stream.IntStream;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * Feature vectors of all tiles of a die. A feature that the sampling cannot carry is NaN, never
 * zero.
 */
public final class FeatureTable {
  private final TileGrid grid;
  private final float[][] rows;
  private final float[] contrast;
  private final boolean[] damaged;
  private final FineMap fine;

  /** What only a picture has that was read just now. */
  private final Optional<TileStatistics> statistics;

  private FeatureTable(
      TileGrid grid,
      float[][] rows,
      float[] contrast,
      boolean[] damaged,
      FineMap fine,
      Optional<TileStatistics> statistics) {
    this.grid = grid;
    this.rows = rows;
    this.contrast = contrast;
    this.damaged = damaged;
    this.fine = fine;
    this.statistics = statistics;
  }

  /** A table that was kept: without periods and without the map of damage. */
  static FeatureTable restored(
      TileGrid grid, float[][] rows, float[] contrast, boolean[] damaged, FineMap fine) {
    return new FeatureTable(grid, rows, contrast, damaged, fine, Optional.empty());
  }

  /**
   * Reads the upright die once and forms all features; runs on the calling thread's fork-join pool.
   *
   * @return one vector of {@link FeatureSchema#CURRENT} size for each tile, row-major
   */
  public static FeatureTable extract(PreparedDie die, TileGrid grid) {
    TileStatistics statistics = TileStatistics.of(die, grid);
    int features = FeatureSchema.CURRENT.size();
    float[][] rows = new float[grid.count()][features];
    float[][] even = Evenness.planes(statistics.texture());
    float[][] evenSquares = squares(even);
    int perWindow = FeatureSchema.perWindow();
    for (int w = 0; w < FeatureSchema.WINDOW_REACH.length; w++) {
      int reach = FeatureSchema.WINDOW_REACH[w];
      new WindowFeatures(statistics, even, evenSquares, reach).write(rows, w * perWindow);
    }
    RowsOfTheDie.of(rows, grid).write(rows);
    float sampling = (float) Math.log(grid.pitchUm());
    for (float[] row : rows) {
      row[features - 1] = sampling;
    }
    boolean[] damaged = new boolean[grid.count()];
    for (int t = 0; t < damaged.length; t++) {
      damaged[t] = statistics.damaged(t);
    }
    return new FeatureTable(
        grid, rows, contrast(statistics), damaged, statistics.fine(), Optional.of(statistics));
  }

  private static float[][] squares(float[][] planes) {
    float[][] out = new float[planes.length][];
    IntStream.range(0, planes.length)
        .forEach(
            i -> {
              out[i] = new float[planes[i].length];
              for (int t = 0; t < out[i].length; t++) {
                out[i][t] = planes[i][t] * planes[i][t];
              }
            });
    return out;
  }

  private static float[] contrast(TileStatistics s) {
    float[] out = new float[s.grid().count()];
    for (int t = 0; t < out.length; t++) {
      double n = Math.max(1, s.texture()[0][t]);
      double energy = 0;
      for (int b = 1; b <= 3; b++) {
        energy += s.texture()[TextureSums.bandPlane(b, 0)][t];
      }
      out[t] = (float) Math.sqrt(energy / n);
    }
    return out;
  }

  /** How many of the first features come from the smallest window. */
  public static int smallestWindowFeatures() {
    return FeatureSchema.perWindow();
  }

  /** The tiles. */
  public TileGrid grid() {
    return grid;
  }

  /** Feature vector of a tile; not to be changed. */
  public float[] row(int tile) {
    return rows[tile];
  }

  /** Grey and activity on quarter tiles. */
  public FineMap fine() {
    return fine;
  }

  /**
   * Dominant periods of a set of tiles, strongest first; at most one along each axis.
   *
   * @param tiles numbers of the tiles
   */
  public java.util.List<DominantPeriods.Found> periods(int[] tiles) {
    return DominantPeriods.of(statistics.orElseThrow(), tiles);
  }

  /**
   * Whether the strongest period of a set of tiles is that of the mosaic that the photograph was
   * stitched from, and so says nothing of the layout.
   *
   * @param tiles numbers of the tiles
   */
  public boolean periodOfTheMosaic(int[] tiles) {
    java.util.List<DominantPeriods.Found> found = periods(tiles);
    return !found.isEmpty() && MosaicSteps.own(fine(), grid, tiles, found.get(0));
  }

  /**
   * How surely the surroundings of a tile repeat in both directions, whatever the size of the
   * period: the weaker direction's rise at its own period and at the multiples of it, in the
   * windows of middle and large size. 0 for none; a lattice without noise has 2, rows of cells near
   * 0.
   */
  public float lattice(int tile) {
    float best = 0;
    for (int w = 1; w < FeatureSchema.WINDOW_REACH.length; w++) {
      float weaker = Float.MAX_VALUE;
      for (int direction = 0; direction < 2; direction++) {
        int at = w * FeatureSchema.perWindow() + direction * FeatureSchema.perDirection();
        float rise = rows[tile][at + FeatureSchema.own(FeatureSchema.OWN_RISE)];
        float repeats = rows[tile][at + FeatureSchema.own(FeatureSchema.OWN_REPEATS)];
        weaker = Math.min(weaker, Math.min(rise, Float.isNaN(repeats) ? 0 : 2 * repeats));
      }
      best = Math.max(best, weaker);
    }
    return best;
  }

  /**
   * Area of a cell of the lattice about a tile, um2, in the window of middle size; NaN for none.
   */
  public double latticeCellUm2(int tile) {
    double log = 0;
    for (int direction = 0; direction < 2; direction++) {
      int at = FeatureSchema.perWindow() + direction * FeatureSchema.perDirection();
      log += rows[tile][at + FeatureSchema.own(FeatureSchema.OWN_LAG)];
    }
    return Math.pow(2, log);
  }

  /** Whether residue, dust or glare hides this tile; its features are those of its surroundings. */
  public boolean damaged(int tile) {
    return damaged[tile];
  }

  /** Where residue, dust, glare or scratches hide the surface. */
  public DamageMap damage() {
    return statistics.orElseThrow().damage();
  }

  /** Local contrast of a tile alone, root mean square of grey in the bands of 1 to 8 um. */
  public float contrast(int tile) {
    return contrast[tile];
  }
}
