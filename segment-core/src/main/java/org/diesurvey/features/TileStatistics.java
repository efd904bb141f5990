package org.diesurvey.features;

import java.util.stream.IntStream;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.features.damage.DamageMask;
import org.diesurvey.features.damage.DamageTuning;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * All sums per tile: what the features of any window are made of. The upright die passes through
 * here once, in bands, and so does each reduction of it; nothing is kept but the sums. Of a large
 * die the sums and the reduced rasters lie in scratch files.
 */
final class TileStatistics implements AutoCloseable {
  /**
   * Most tile rows of one band. Bands are independent and see all that their filters reach, so
   * neither their order nor their height changes anything.
   */
  private static final int BAND_TILE_ROWS = 40;

  /**
   * Wider rasters are read in parts, px of the level, at full size px of the photograph: a band of
   * them would fill the memory. It is one number for all, because a turned picture is read to 1/32
   * px from the left end of a part.
   */
  private static final int MOST_WIDTH_PX = 8192;

  /** Pixels of a part without its margins: 20 MB as numbers, of which a worker needs about six. */
  private static final double PART_PX = 5e6;

  private final TileGrid grid;
  private final int bin;
  private final boolean inFiles;
  private final int mostWidth;
  private final FineMap fine;
  private final RowStore sums;
  private DamageMap damage;
  private boolean[] damaged;

  private TileStatistics(TileGrid grid, int bin, boolean inFiles, int mostWidth) {
    this.grid = grid;
    this.mostWidth = mostWidth;
    this.bin = bin;
    this.inFiles = inFiles;
    this.fine = new FineMap(grid);
    this.sums = store(grid.rows(), SumsBand.PLANES * grid.columns());
  }

  private RowStore store(int rows, int length) {
    return inFiles ? RowStore.inFile(rows, length) : RowStore.of(rows, length);
  }

  /** Reads the upright die once. */
  static TileStatistics of(PreparedDie die, TileGrid grid, DamageTuning tuning) {
    return of(die, grid, BAND_TILE_ROWS, MOST_WIDTH_PX, false, tuning);
  }

  /** The same with bands of another height, or in files whatever the size: that changes nothing. */
  static TileStatistics of(PreparedDie die, TileGrid grid, int mostBandRows, boolean inFiles) {
    return of(die, grid, mostBandRows, MOST_WIDTH_PX, inFiles, DamageTuning.DEFAULT);
  }

  /** The same in parts of another width: that changes nothing but how a turned picture is read. */
  static TileStatistics inParts(PreparedDie die, TileGrid grid, int mostWidthPx) {
    return of(die, grid, BAND_TILE_ROWS, mostWidthPx, false, DamageTuning.DEFAULT);
  }

  private static TileStatistics of(
      PreparedDie die,
      TileGrid grid,
      int mostBandRows,
      int mostWidthPx,
      boolean inFiles,
      DamageTuning tuning) {
    TileStatistics s = new TileStatistics(grid, die.bin(), inFiles, mostWidthPx);
    s.levels(die, mostBandRows);
    s.damage = DamageMask.find(s.fine, DamageMask.missing(die, grid), tuning);
    s.damaged = DamageMask.tiles(s.damage, grid, tuning);
    s.forgetDamaged();
    return s;
  }

  /** Reads a window of a level's raster. */
  private interface Source {
    GrayRaster window(int x, int y, int width, int height);
  }

  private void levels(PreparedDie die, int mostBandRows) {
    Source source = die::window;
    RowStore below = null;
    for (int reduction = 1; reduction <= coarsest(); reduction *= 2) {
      int width = LevelPart.width(grid, 2 * reduction);
      int height = LevelPart.height(grid, 2 * reduction);
      RowStore next = 2 * reduction <= coarsest() ? store(height, width) : null;
      level(source, reduction, next, mostBandRows);
      if (below != null) {
        below.close();
      }
      below = next;
      source = next == null ? null : (x, y, w, h) -> window(next, x, y, w, h);
    }
  }

  /** The largest reduction that lags or bands need. */
  private int coarsest() {
    int most = Level.ALL[Level.ALL.length - 1].reduction();
    while (most > 2 && Math.min(grid.width(), grid.height()) / (most / 2) < LEAST_SIDE_PX) {
      most /= 2;
    }
    for (int band = 0; band < TextureSums.BAND_UM.length; band++) {
      most = Math.max(most, TextureSums.reduction(band, grid));
    }
    return most;
  }

  /** A raster with a shorter side is not reduced any more, px. */
  private static final int LEAST_SIDE_PX = 4;

  private static GrayRaster window(RowStore rows, int x, int y, int width, int height) {
    GrayRaster out = new GrayRaster(width, height);
    for (int r = 0; r < height; r++) {
      rows.get(y + r, x, out.array(), r * width, width);
    }
    return out;
  }

  private void level(Source source, int reduction, RowStore next, int mostBandRows) {
    int each = bandRows(Math.min(mostBandRows, rowsOfAPart(reduction)));
    IntStream.range(0, (grid.rows() + each - 1) / each)
        .parallel()
        .forEach(
            b -> {
              int end = Math.min(grid.rows(), (b + 1) * each);
              SumsBand band = new SumsBand(grid, b * each, end);
              for (LevelPart.Tiles tiles : across(reduction, b * each, end)) {
                part(source, reduction, tiles, next, band);
              }
              band.store(sums);
            });
  }

  /** Widest part of a level, px of the level. */
  private int mostWidth(int reduction) {
    return Math.max(1, reduction == 1 ? mostWidth / bin : mostWidth);
  }

  /** Tile rows that make a part of the usual size, so that a filter of it takes little memory. */
  private int rowsOfAPart(int reduction) {
    double width = Math.min(mostWidth(reduction), LevelPart.width(grid, reduction));
    double pixels = reduction == 1 ? PART_PX / bin / bin : PART_PX;
    return (int) Math.max(1, pixels / width * reduction / grid.tilePx());
  }

  /** Tile rows of a band so that bands are alike and their number is even: pairs of processors. */
  private int bandRows(int most) {
    int bands = 2 * ((grid.rows() + 2 * most - 1) / (2 * most));
    return Math.max(1, (grid.rows() + bands - 1) / bands);
  }

  /** A band in parts of like width, one for rasters that are not too wide. */
  private java.util.List<LevelPart.Tiles> across(int reduction, int row, int rowEnd) {
    int width = LevelPart.width(grid, reduction);
    int parts = Math.min(grid.columns(), (width + mostWidth(reduction) - 1) / mostWidth(reduction));
    return IntStream.range(0, parts)
        .mapToObj(
            p ->
                new LevelPart.Tiles(
                    row,
                    rowEnd,
                    (int) ((long) grid.columns() * p / parts),
                    (int) ((long) grid.columns() * (p + 1) / parts)))
        .toList();
  }

  private void part(
      Source source, int reduction, LevelPart.Tiles tiles, RowStore next, SumsBand band) {
    int width = LevelPart.width(grid, reduction);
    int height = LevelPart.height(grid, reduction);
    // What lies beyond the last tile belongs to no tile, but coarser levels see it.
    int x0 = grid.start(tiles.column(), reduction, width);
    int x1 =
        tiles.columnEnd() == grid.columns()
            ? width
            : grid.start(tiles.columnEnd(), reduction, width);
    int y0 = grid.start(tiles.row(), reduction, height);
    int y1 = tiles.rowEnd() == grid.rows() ? height : grid.start(tiles.rowEnd(), reduction, height);
    int left = Math.max(0, x0 - LevelPart.MARGIN_PX);
    int top = Math.max(0, y0 - LevelPart.MARGIN_PX);
    int right = Math.min(width, x1 + LevelPart.MARGIN_PX);
    int bottom = Math.min(height, y1 + LevelPart.MARGIN_PX);
    GrayRaster grey =
        source.window(left, top, Math.max(1, right - left), Math.max(1, bottom - top));
    LevelPart part = new LevelPart(grey, left, top, reduction);
    if (next != null) {
      halve(part, x0, x1, y0, y1, next);
    }
    TextureSums.sum(part, grid, tiles, band);
    if (reduction == 1) {
      fine.fill(grey, left, top, tiles.asRect());
    }
    for (int l = 0; l < Level.ALL.length; l++) {
      if (Level.ALL[l].reduction() == reduction) {
        LevelPart pattern = new LevelPart(LocalContrast.of(grey), left, top, reduction);
        LagProducts.sum(pattern, l, grid, tiles, band);
      }
    }
  }

  /** Writes the pixels of the next level whose upper left source pixel lies in a rectangle. */
  private static void halve(LevelPart part, int x0, int x1, int y0, int y1, RowStore next) {
    GrayRaster g = part.raster();
    float[] a = g.array();
    int firstX = (x0 + 1) / 2;
    int endX = Math.min(next.length(), (x1 + 1) / 2);
    float[] row = new float[Math.max(0, endX - firstX)];
    for (int y = (y0 + 1) / 2; y < next.rows() && 2 * y < y1; y++) {
      int up = (2 * y - part.top()) * g.width() - part.left();
      int down = 2 * y + 1 - part.top() < g.height() ? up + g.width() : up;
      for (int x = firstX; x < endX; x++) {
        row[x - firstX] =
            0.25f * (a[up + 2 * x] + a[up + 2 * x + 1] + a[down + 2 * x] + a[down + 2 * x + 1]);
      }
      next.put(y, firstX, row, 0, row.length);
    }
  }

  /** Takes damaged tiles out of every sum. */
  private void forgetDamaged() {
    int columns = grid.columns();
    float[] row = new float[sums.length()];
    for (int r = 0; r < grid.rows(); r++) {
      boolean any = false;
      for (int c = 0; c < columns; c++) {
        if (damaged[r * columns + c]) {
          if (!any) {
            sums.get(r, 0, row, 0, row.length);
            any = true;
          }
          for (int p = 0; p < SumsBand.PLANES; p++) {
            row[p * columns + c] = 0;
          }
        }
      }
      if (any) {
        sums.put(r, 0, row, 0, row.length);
      }
    }
  }

  /**
   * Copies the first planes of a row of tiles.
   *
   * @param to plane after plane, a value for each column
   */
  void row(int tileRow, int planes, float[] to) {
    sums.get(tileRow, 0, to, 0, planes * grid.columns());
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

  @Override
  public void close() {
    sums.close();
  }
}
