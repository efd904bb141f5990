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

    private Labelled(FeatureTable features, List<DieSide> sides, int[] classes) {
      this.features = features;
      this.sides = sides;
      this.classes = classes;
    }

    FeatureTable features() {
      return features;
    }

    List<DieSide> sides() {
      return sides;
    }

    /** Ordinal of the surface class for each tile, negative for tiles that are no sample. */
    int[] classes() {
      return classes;
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
  static Labelled draw(long seed, DrawOptions options, double purity) {
    return of(DieDrawing.draw(seed, options), purity);
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

  /**
   * Labels the tiles of a drawn die.
   *
   * @param purity least share of a tile that one surface must cover
   */
  static Labelled of(DrawnDie drawn, double purity) {
    TiledDie ready = prepare(drawn);
    int[] classes = new int[ready.grid().count()];
    for (int t = 0; t < classes.length; t++) {
      classes[t] = classOf(drawn, ready.die().uprightToPhoto(), ready.grid(), t, purity);
    }
    return new Labelled(
        FeatureTable.extract(ready.die(), ready.grid()), ready.die().frame().realEdges(), classes);
  }

  private static int classOf(
      DrawnDie drawn, PlaneMap toPhoto, TileGrid grid, int tile, double purity) {
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
          return NO_SAMPLE;
        }
        int at = py * drawn.widthPx() + px;
        int c = surfaceClass(drawn.surface()[at]);
        if (c < 0) {
          return NO_SAMPLE;
        }
        count[c]++;
        damaged += drawn.damage()[at];
      }
    }
    double points = SAMPLES * SAMPLES;
    if (damaged > DAMAGED * points) {
      return NO_SAMPLE;
    }
    for (int c = 0; c < count.length; c++) {
      if (count[c] >= purity * points) {
        return c;
      }
    }
    return NO_SAMPLE;
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
