package org.diesurvey.cli;

import java.util.Optional;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.pipeline.OnDie;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.LayoutLibrary;
import org.diesurvey.synthetic.SurfaceLabel;
import org.diesurvey.tiles.TileGrid;

/**
 * Drawn dies as labelled tiles, prepared in the same way as a photograph that is surveyed: the same
 * search for the die edge, the same averaging of fine photographs, the same tiles.
 */
final class TrainingDies {
  /** Points looked at along each side of a tile. */
  private static final int SAMPLES = 5;

  /** Least share of a tile that one surface must cover for the tile to be a sample of it. */
  static final double PURE = 0.8;

  /** The same where tiles on the border of a block are wanted as well. */
  static final double MOSTLY = 0.55;

  /** Largest damaged share of a sample. */
  private static final double DAMAGED = 0.3;

  private static final int KINDS = 5;

  /** Coarsest and finest node of old processes, nm: processes of the late 1980s and the 1990s. */
  private static final double OLD_COARSEST_NM = 1000;

  private static final double OLD_FINEST_NM = 300;

  /** Seeds from here on draw sparse dies. */
  static final int SPARSE_SEEDS = 1_000_000_000;

  private TrainingDies() {}

  /**
   * What is fixed about the training die of a seed: three in five are of the wide style, one is of
   * an old process; from {@link #SPARSE_SEEDS} on all are of the sparse one. Which a seed is does
   * not hang on its last digit, by which dies are left out.
   *
   * @param megapixels size limit of the photograph, MP
   */
  static DrawOptions options(long seed, double megapixels) {
    if (seed >= SPARSE_SEEDS) {
      return sparse(seed, megapixels);
    }
    DrawOptions options = DrawOptions.defaults().withMaxMegapixels(megapixels);
    return switch (Math.floorMod(seed + seed / 10, KINDS)) {
      case 0, 1, 3 -> wide(megapixels);
      case 2 -> options.withNodes(OLD_COARSEST_NM, OLD_FINEST_NM);
      default -> options;
    };
  }

  /** Dies of the wide style. */
  static DrawOptions wide(double megapixels) {
    DrawOptions options = DrawOptions.defaults().withMaxMegapixels(megapixels);
    return options
        .withNodes(OLD_COARSEST_NM, options.finestNodeNm())
        .withStyle(DrawOptions.Style.WIDE);
  }

  /** Dies of the sparse style; every other one under the worst light and dirt. */
  static DrawOptions sparse(long seed, double megapixels) {
    return wide(megapixels)
        .withStyle(DrawOptions.Style.SPARSE)
        .withSeverity((seed & 1) == 0 ? 1 : 1.5);
  }

  /** Draws a die and labels its tiles; runs on the calling thread's fork-join pool. */
  static LabelledTiles draw(long seed, DrawOptions options, Optional<LayoutLibrary> library) {
    return of(DieDrawing.draw(seed, options, library));
  }

  /** Makes a drawn die ready as a photograph that is surveyed is. */
  static TiledDie prepare(DrawnDie drawn) {
    DrawnPixels pixels = new DrawnPixels(drawn);
    return TiledDie.of(
        pixels,
        PreparedDie.locate(pixels),
        drawn.truth().umPerPx(),
        SegmentSettings.DEFAULT_TILE_UM);
  }

  /** Labels the tiles of a drawn die. */
  static LabelledTiles of(DrawnDie drawn) {
    TiledDie ready = prepare(drawn);
    int[] classes = new int[ready.grid().count()];
    double[] purity = new double[classes.length];
    for (int t = 0; t < classes.length; t++) {
      int[] points = points(drawn, ready.die().uprightToPhoto(), ready.grid(), t);
      for (int c = 0; c < points.length; c++) {
        double share = points[c] / (double) (SAMPLES * SAMPLES);
        if (share > purity[t]) {
          purity[t] = share;
          classes[t] = c;
        }
      }
    }
    return new LabelledTiles(
        drawn.truth().technology(),
        FeatureTable.extract(ready.die(), ready.grid()),
        OnDie.tiles(ready.die(), ready.grid()),
        ready.die().frame().realEdges(),
        classes,
        purity);
  }

  /** Points of a tile that show each surface; none at all where the tile is no sample. */
  private static int[] points(DrawnDie drawn, PlaneMap toPhoto, TileGrid grid, int tile) {
    int row = tile / grid.columns();
    int column = tile % grid.columns();
    int[] count = new int[SurfaceClass.COUNT];
    int damaged = 0;
    for (int i = 0; i < SAMPLES; i++) {
      for (int j = 0; j < SAMPLES; j++) {
        double x = (column + (i + 0.5) / SAMPLES) * grid.tilePx();
        double y = (row + (j + 0.5) / SAMPLES) * grid.tilePx();
        int px = (int) Math.floor(toPhoto.x(x, y));
        int py = (int) Math.floor(toPhoto.y(x, y));
        if (px < 0 || py < 0 || px >= drawn.widthPx() || py >= drawn.heightPx()) {
          return new int[SurfaceClass.COUNT];
        }
        int at = py * drawn.widthPx() + px;
        int c = surfaceClass(drawn.surface()[at]);
        if (c < 0) {
          return new int[SurfaceClass.COUNT];
        }
        count[c]++;
        damaged += drawn.damage()[at];
      }
    }
    return damaged > DAMAGED * SAMPLES * SAMPLES ? new int[SurfaceClass.COUNT] : count;
  }

  private static int surfaceClass(byte surface) {
    return switch (surface) {
      case SurfaceLabel.MEMORY_ARRAY -> SurfaceClass.BIT_CELLS.ordinal();
      case SurfaceLabel.HARD_MACRO -> SurfaceClass.MACRO.ordinal();
      case SurfaceLabel.LOGIC -> SurfaceClass.CELL_ROWS.ordinal();
      case SurfaceLabel.PAD_RING -> SurfaceClass.IO_CELLS.ordinal();
      case SurfaceLabel.MEMORY_PERIPHERY -> SurfaceClass.PERIPHERY.ordinal();
      case SurfaceLabel.EMPTY, SurfaceLabel.SEAL_RING -> SurfaceClass.BARE.ordinal();
      default -> LabelledTiles.NO_SAMPLE;
    };
  }
}
