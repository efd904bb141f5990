package org.diesurvey.cli;

import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.preparation.DieSide;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
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

  /** Every so many dies one is of an old process, with cells that fill many tiles. */
  private static final int OLD_EVERY = 5;

  /** Coarsest and finest node of those, nm: processes of the late 1980s and the 1990s. */
  private static final double OLD_COARSEST_NM = 1000;

  private static final double OLD_FINEST_NM = 300;

  private static final int NO_SAMPLE = -1;

  private TrainingDies() {}

  /** All tiles of one die, and the class of those that are clear samples. */
  static final class Labelled {
    private final FeatureTable features;
    private final List<DieSide> sides;
    private final int[] classes;
    private final double[] purity;

    private Labelled(FeatureTable features, List<DieSide> sides, int[] classes, double[] purity) {
      this.features = features;
      this.sides = sides;
      this.classes = classes;
      this.purity = purity;
    }

    FeatureTable features() {
      return features;
    }

    List<DieSide> sides() {
      return sides;
    }

    /**
     * Ordinal of the surface class for each tile, negative for tiles that are no sample.
     *
     * @param least share of a tile that one surface must cover
     */
    int[] classes(double least) {
      int[] out = classes.clone();
      for (int t = 0; t < out.length; t++) {
        out[t] = purity[t] >= least ? classes[t] : NO_SAMPLE;
      }
      return out;
    }
  }

  /**
   * What is fixed about the training die of a seed.
   *
   * @param megapixels size limit of the photograph, MP
   */
  static DrawOptions options(long seed, double megapixels) {
    DrawOptions options = DrawOptions.defaults().withMaxMegapixels(megapixels);
    return Math.floorMod(seed, OLD_EVERY) == 2
        ? options.withNodes(OLD_COARSEST_NM, OLD_FINEST_NM)
        : options;
  }

  /** Draws a die and labels its tiles; runs on the calling thread's fork-join pool. */
  static Labelled draw(long seed, DrawOptions options) {
    return of(DieDrawing.draw(seed, options));
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
  static Labelled of(DrawnDie drawn) {
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
    return new Labelled(
        FeatureTable.extract(ready.die(), ready.grid()),
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
      default -> NO_SAMPLE;
    };
  }
}
