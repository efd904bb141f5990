package org.diesurvey.comparison.tiles;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.raster.PlaneTransform;

/**
 * What the model sees in every tile of the common grid, as log probabilities, so that sums over
 * tiles and over pictures weigh evidence.
 */
public final class TileLooks {
  /** No tile counts as more certain than this. */
  private static final double LEAST = 1e-3;

  private final float[][] log;

  /** Log odds of a block (cells of memories, their periphery, macros) against logic and bare. */
  public final float[] block;

  /** Log odds of memory against macro. */
  public final float[] memory;

  private TileLooks(float[][] log, float[] block, float[] memory) {
    this.log = log;
    this.block = block;
    this.memory = memory;
  }

  /**
   * @param tiles of one die
   * @param umPerPx pitch of its upright raster
   * @param toDieUm from tiles of the common grid (column, row) to um of that die, y down
   */
  public static TileLooks of(
      TileProbabilities tiles, double umPerPx, PlaneTransform toDieUm, int columns, int rows) {
    double um = tiles.grid().tilePx() * umPerPx;
    float[][] log = new float[SurfaceClass.COUNT][columns * rows];
    float[] block = new float[columns * rows];
    float[] memory = new float[columns * rows];
    for (int i = 0; i < block.length; i++) {
      double x = i % columns + 0.5;
      double y = i / columns + 0.5;
      int c = held((int) Math.floor(toDieUm.x(x, y) / um), tiles.grid().columns());
      int r = held((int) Math.floor(toDieUm.y(x, y) / um), tiles.grid().rows());
      double[] p = new double[SurfaceClass.COUNT];
      for (SurfaceClass s : SurfaceClass.values()) {
        p[s.ordinal()] = Math.max(LEAST, tiles.get(r * tiles.grid().columns() + c, s));
        log[s.ordinal()][i] = (float) Math.log(p[s.ordinal()]);
      }
      double cells = p[SurfaceClass.BIT_CELLS.ordinal()] + p[SurfaceClass.PERIPHERY.ordinal()];
      double macro = p[SurfaceClass.MACRO.ordinal()];
      double logic = p[SurfaceClass.CELL_ROWS.ordinal()] + p[SurfaceClass.BARE.ordinal()];
      block[i] = (float) Math.log((cells + macro) / logic);
      memory[i] = (float) Math.log(cells / macro);
    }
    return new TileLooks(log, block, memory);
  }

  private static int held(int v, int count) {
    return Math.max(0, Math.min(count - 1, v));
  }

  /** The class of a tile that both pictures together favour; periphery counts as bit cells. */
  static SurfaceClass joint(OfBoth<TileLooks> looks, int tile) {
    SurfaceClass best = SurfaceClass.BIT_CELLS;
    double most = Double.NEGATIVE_INFINITY;
    for (SurfaceClass s : SurfaceClass.values()) {
      double v = looks.first().log[s.ordinal()][tile] + looks.second().log[s.ordinal()][tile];
      if (v > most) {
        most = v;
        best = s;
      }
    }
    return best == SurfaceClass.PERIPHERY ? SurfaceClass.BIT_CELLS : best;
  }

  /** Mean over tiles. */
  public static double mean(float[] odds, boolean[] mask) {
    double sum = 0;
    int n = 0;
    for (int i = 0; i < odds.length; i++) {
      if (mask[i]) {
        sum += odds[i];
        n++;
      }
    }
    return n == 0 ? 0 : sum / n;
  }
}
