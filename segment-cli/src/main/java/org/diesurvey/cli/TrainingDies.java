package org.diesurvey.cli;

import java.util.Optional;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.LayoutLibrary;
import org.diesurvey.synthetic.SurfaceLabel;
import org.diesurvey.training.LabelledTiles;

/**
 * Drawn dies as labelled tiles, prepared in the same way as a photograph that is surveyed: the same
 * search for the die edge, the same averaging of fine photographs, the same tiles.
 */
final class TrainingDies {
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
    return LabelledTiles.of(drawn.truth().technology(), prepare(drawn), new DrawnTruth(drawn));
  }

  /** Every pixel of a drawn die is known. */
  private record DrawnTruth(DrawnDie drawn) implements LabelledTiles.Truth {
    @Override
    public int surface(int x, int y) {
      return surfaceClass(drawn.surface()[y * drawn.widthPx() + x]);
    }

    @Override
    public boolean damaged(int x, int y) {
      return drawn.damage()[y * drawn.widthPx() + x] != 0;
    }
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
