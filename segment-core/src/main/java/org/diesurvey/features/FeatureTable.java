package org.diesurvey.features;

import java.util.Optional;
import org.diesurvey.features.FeatureSchema.Direction;
import org.diesurvey.features.FeatureSchema.OwnPeriod;
import org.diesurvey.features.FeatureSchema.Window;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.features.damage.DamageTuning;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * Feature vectors of all tiles of a die. A feature that the sampling cannot carry is NaN, never
 * zero.
 */
public final class FeatureTable implements AutoCloseable {
  /** Windows in which a lattice shows. */
  private static final Window[] LATTICE = {Window.MIDDLE, Window.LARGE};

  private final TileGrid grid;
  private final RowStore vectors;
  private final Optional<RowsOfTheDie> rowsOfTheDie;
  private final float[] contrast;
  private final boolean[] damaged;
  private final FineMap fine;

  private final DamageMap damage;

  /** What only a picture has that was read just now. */
  private final Optional<TileStatistics> statistics;

  private FeatureTable(
      TileGrid grid,
      RowStore vectors,
      Optional<RowsOfTheDie> rowsOfTheDie,
      float[] contrast,
      boolean[] damaged,
      FineMap fine,
      DamageMap damage,
      Optional<TileStatistics> statistics) {
    this.grid = grid;
    this.vectors = vectors;
    this.rowsOfTheDie = rowsOfTheDie;
    this.contrast = contrast;
    this.damaged = damaged;
    this.fine = fine;
    this.damage = damage;
    this.statistics = statistics;
  }

  /**
   * A table that was kept: without periods.
   *
   * @param vectors those of a row of tiles one after the other
   */
  static FeatureTable restored(
      TileGrid grid,
      RowStore vectors,
      float[] contrast,
      boolean[] damaged,
      FineMap fine,
      DamageMap damage) {
    return new FeatureTable(
        grid, vectors, Optional.empty(), contrast, damaged, fine, damage, Optional.empty());
  }

  /** A table of a picture. */
  static FeatureTable of(
      TileStatistics statistics, RowStore vectors, RowsOfTheDie rowsOfTheDie, float[] contrast) {
    boolean[] damaged = new boolean[contrast.length];
    for (int t = 0; t < damaged.length; t++) {
      damaged[t] = statistics.damaged(t);
    }
    return new FeatureTable(
        statistics.grid(),
        vectors,
        Optional.of(rowsOfTheDie),
        contrast,
        damaged,
        statistics.fine(),
        statistics.damage(),
        Optional.of(statistics));
  }

  /**
   * Reads the upright die once and forms all features, {@link FeatureSchema#CURRENT} for each tile;
   * runs on the calling thread's fork-join pool. Those of a large die lie in scratch files until
   * the table is closed.
   */
  public static FeatureTable extract(PreparedDie die, TileGrid grid) {
    return extract(die, grid, DamageTuning.DEFAULT);
  }

  /**
   * The same with other limits of damage.
   *
   * @param damage what counts as hidden
   */
  public static FeatureTable extract(PreparedDie die, TileGrid grid, DamageTuning damage) {
    return FeatureExtraction.of(TileStatistics.of(die, grid, damage));
  }

  /** Gives scratch files back; neither vectors nor periods can be asked for after that. */
  @Override
  public void close() {
    vectors.close();
    statistics.ifPresent(TileStatistics::close);
  }

  /** Reads vectors; each thread needs one of its own. */
  public Vectors vectors() {
    return new Vectors();
  }

  /** Feature vectors, fast if they are asked for row by row. */
  public final class Vectors {
    private final float[] vector = new float[FeatureSchema.CURRENT.size()];
    private final float[][] blocks = new float[2][];
    private final int[] held = {-1, -1};

    private Vectors() {}

    /** The vector of a tile, until the next one is asked for; not to be changed. */
    public float[] of(int tile) {
      int row = tile / grid.columns();
      int at = tile % grid.columns() * vector.length;
      if (vectors.inMemory()) {
        vectors.get(row, at, vector, 0, vector.length);
      } else {
        System.arraycopy(block(row), at, vector, 0, vector.length);
      }
      rowsOfTheDie.ifPresent(r -> r.write(vector));
      return vector;
    }

    /** A row of tiles and the next one are held together. */
    private float[] block(int row) {
      int which = row & 1;
      if (held[which] != row) {
        if (blocks[which] == null) {
          blocks[which] = new float[vectors.length()];
        }
        vectors.get(row, 0, blocks[which], 0, vectors.length());
        held[which] = row;
      }
      return blocks[which];
    }

    /**
     * How surely the surroundings of a tile repeat in both directions, whatever the size of the
     * period: the weaker direction's rise at its own period and at the multiples of it, in the
     * windows of middle and large size. 0 for none; a lattice without noise has 2, rows of cells
     * near 0.
     */
    public float lattice(int tile) {
      float[] row = of(tile);
      float best = 0;
      for (Window w : LATTICE) {
        float weaker = Float.MAX_VALUE;
        for (Direction d : Direction.values()) {
          float rise = row[FeatureSchema.column(w, d, OwnPeriod.RISE)];
          float repeats = row[FeatureSchema.column(w, d, OwnPeriod.REPEATS)];
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
      float[] row = of(tile);
      double log = 0;
      for (Direction d : Direction.values()) {
        log += row[FeatureSchema.column(Window.MIDDLE, d, OwnPeriod.LAG)];
      }
      return Math.pow(2, log);
    }
  }

  /** How many of the first features come from the smallest window. */
  public static int smallestWindowFeatures() {
    return FeatureSchema.perWindow();
  }

  /** The tiles. */
  public TileGrid grid() {
    return grid;
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
   * stitched from, and so says nothing of the layout; false in a table that was kept.
   *
   * @param tiles numbers of the tiles
   */
  public boolean periodOfTheMosaic(int[] tiles) {
    if (statistics.isEmpty()) {
      return false;
    }
    java.util.List<DominantPeriods.Found> found = periods(tiles);
    return !found.isEmpty() && MosaicSteps.own(fine(), grid, tiles, found.get(0));
  }

  /** Whether residue, dust or glare hides this tile; its features are those of its surroundings. */
  public boolean damaged(int tile) {
    return damaged[tile];
  }

  /** Where residue, dust, glare or scratches hide the surface. */
  public DamageMap damage() {
    return damage;
  }

  /** Local contrast of a tile alone, root mean square of grey in the bands of 1 to 8 um. */
  public float contrast(int tile) {
    return contrast[tile];
  }
}
