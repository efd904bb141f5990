package org.diesurvey.features;

import java.util.stream.IntStream;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.features.damage.DamageMask;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * All sums per tile, plane by plane: what the features of any window are made of. The upright die
 * passes through here once, in bands; nothing of it is kept but the sums and the reduced rasters of
 * the coarse lags.
 */
final class TileStatistics {
  /**
   * Most tile rows of one band. Bands are independent and see all that their filters reach, so
   * neither their order nor their height changes anything.
   */
  private static final int BAND_TILE_ROWS = 40;

  /** Rows above and below a band that the lags and the local contrast reach into, working px. */
  private static final int LEAST_MARGIN_PX = 72;

  /**
   * The same for the coarsest band-pass filter, um: four deviations of its outer scale, at which
   * the filter ends, and two pixels of the raster that it is formed on.
   */
  private static final double MARGIN_UM = 80;

  private final TileGrid grid;
  private final FineMap fine;
  private DamageMap damage;
  private boolean[] damaged;
  private final float[][] texture;
  private final float[][] zero;
  private final float[][][] alongX;
  private final float[][][] alongY;

  private TileStatistics(TileGrid grid) {
    this.grid = grid;
    int tiles = grid.count();
    int levels = Level.ALL.length;
    this.fine = new FineMap(grid);
    this.texture = new float[TextureSums.planes()][tiles];
    this.zero = new float[levels][tiles];
    this.alongX = new float[levels][][];
    this.alongY = new float[levels][][];
    for (int l = 0; l < levels; l++) {
      alongX[l] = new float[Level.ALL[l].lags()][tiles];
      alongY[l] = new float[Level.ALL[l].lags()][tiles];
    }
  }

  /** Reads the upright die once. */
  static TileStatistics of(PreparedDie die, TileGrid grid) {
    return of(die, grid, BAND_TILE_ROWS);
  }

  /** The same with bands of another height, which must change nothing. */
  static TileStatistics of(PreparedDie die, TileGrid grid, int mostBandRows) {
    TileStatistics s = new TileStatistics(grid);
    GrayRaster half = new GrayRaster(Math.max(1, die.width() / 2), Math.max(1, die.height() / 2));
    int each = bandRows(grid, mostBandRows);
    IntStream.range(0, (grid.rows() + each - 1) / each)
        .parallel()
        .forEach(b -> s.finestBand(die, b * each, Math.min(grid.rows(), (b + 1) * each), half));
    s.coarseLevels(half);
    s.damage = DamageMask.find(s.fine, DamageMask.missing(die, grid));
    s.damaged = DamageMask.tiles(s.damage, grid);
    s.forgetDamaged();
    return s;
  }

  /** Tile rows of a band so that bands are alike and their number is even: pairs of processors. */
  private static int bandRows(TileGrid grid, int most) {
    int bands = 2 * ((grid.rows() + 2 * most - 1) / (2 * most));
    return Math.max(1, (grid.rows() + bands - 1) / bands);
  }

  private void finestBand(PreparedDie die, int first, int end, GrayRaster half) {
    int y0 = grid.start(first, 1, die.height());
    int y1 = grid.start(end, 1, die.height());
    int margin = Math.max(LEAST_MARGIN_PX, (int) Math.ceil(MARGIN_UM / grid.pitchUm()));
    int top = Math.max(0, y0 - margin);
    int bottom = Math.min(die.height(), y1 + margin);
    GrayRaster grey = die.rows(top, Math.max(1, bottom - top));
    copyHalf(grey, top, y0, y1, half);
    TextureSums.sum(grey, top, grid, first, end, texture);
    fine.fill(grey, top, first, end);
    LagProducts.sum(
        LocalContrast.of(grey),
        top,
        Level.ALL[0],
        die.height(),
        grid,
        first,
        end,
        zero[0],
        alongX[0],
        alongY[0]);
  }

  /** Writes the rows of the half-size raster whose upper source row lies in this band. */
  private static void copyHalf(GrayRaster grey, int top, int y0, int y1, GrayRaster half) {
    int w = half.width();
    float[] a = grey.array();
    for (int y = (y0 + 1) / 2; y < half.height() && 2 * y < y1; y++) {
      int up = (2 * y - top) * grey.width();
      int down = 2 * y + 1 - top < grey.height() ? up + grey.width() : up;
      for (int x = 0; x < w; x++) {
        half.set(
            x,
            y,
            0.25f * (a[up + 2 * x] + a[up + 2 * x + 1] + a[down + 2 * x] + a[down + 2 * x + 1]));
      }
    }
  }

  private void coarseLevels(GrayRaster half) {
    GrayRaster g = half;
    for (int l = 1; l < Level.ALL.length; l++) {
      GrayRaster u = LocalContrast.of(g);
      int level = l;
      int each = bandRows(grid, BAND_TILE_ROWS);
      IntStream.range(0, (grid.rows() + each - 1) / each)
          .parallel()
          .forEach(
              b ->
                  LagProducts.sum(
                      u,
                      0,
                      Level.ALL[level],
                      u.height(),
                      grid,
                      b * each,
                      Math.min(grid.rows(), (b + 1) * each),
                      zero[level],
                      alongX[level],
                      alongY[level]));
      if (g.width() < 4 || g.height() < 4) {
        break;
      }
      g = halve(g);
    }
  }

  private static GrayRaster halve(GrayRaster g) {
    GrayRaster out = new GrayRaster(g.width() / 2, g.height() / 2);
    copyHalf(g, 0, 0, g.height(), out);
    return out;
  }

  /** Takes damaged tiles out of every sum. */
  private void forgetDamaged() {
    for (int t = 0; t < damaged.length; t++) {
      if (!damaged[t]) {
        continue;
      }
      for (float[] plane : texture) {
        plane[t] = 0;
      }
      for (int l = 0; l < Level.ALL.length; l++) {
        zero[l][t] = 0;
        for (int k = 0; k < Level.ALL[l].lags(); k++) {
          alongX[l][k][t] = 0;
          alongY[l][k][t] = 0;
        }
      }
    }
  }

  DamageMap damage() {
    return damage;
  }

  boolean damaged(int tile) {
    return damaged[tile];
  }

  TileGrid grid() {
    return grid;
  }

  FineMap fine() {
    return fine;
  }

  float[][] texture() {
    return texture;
  }

  float[] zero(int level) {
    return zero[level];
  }

  float[][] alongX(int level) {
    return alongX[level];
  }

  float[][] alongY(int level) {
    return alongY[level];
  }
}
