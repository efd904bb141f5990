package org.diesurvey.comparison;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.registration.CoarseSearch;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.tiles.TileChangeClassifier;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Survey;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.ImageFilters;

/** Two pictures made up for tests that lie on each other, 640 px square at 1 um/px. */
public final class TestAgreement {
  public static final int SIDE = 640;

  /** Tiles of 8 px along one side. */
  public static final int COLUMNS = SIDE / 8;

  private static final PlaneTransform SAME = new PlaneTransform(1, 0, 0, 0, 1, 0);

  private TestAgreement() {}

  public static TileComparison of(GrayRaster a, GrayRaster b) {
    return of(a, b, List.of(), List.of());
  }

  /**
   * @param blocksA macros and pad ring of the first survey, um; all else is logic, also to the
   *     model
   * @param blocksB of the second
   */
  public static TileComparison of(
      GrayRaster a, GrayRaster b, List<PlacedBlock> blocksA, List<PlacedBlock> blocksB) {
    boolean[] seen = new boolean[SIDE * SIDE];
    Arrays.fill(seen, true);
    Registrar.Found found =
        new Registrar.Found(
            new CoarseSearch.Guess(Orientation.M0, 1, SAME, 1),
            SAME,
            1,
            new Registrar.Finest(a, b, seen),
            0,
            null,
            1,
            List.of());
    return new TileComparison(
        found,
        new OfBoth<>(classes(blocksA), classes(blocksB)),
        new OfBoth<>(looks(blocksA), looks(blocksB)),
        TileChangeClassifier.shipped(),
        8);
  }

  public static TileClasses classes(List<PlacedBlock> blocks) {
    Survey survey = PlacedSurvey.of(SIDE, SIDE, blocks, true);
    // These surveys are in px of 0.5 um.
    PlaneTransform toGrid = new PlaneTransform(1 / 16.0, 0, 0, 0, -1 / 16.0, COLUMNS);
    return TileClasses.of(survey, toGrid, COLUMNS, COLUMNS);
  }

  /** A model that finds a macro in every block, logic elsewhere. */
  private static TileLooks looks(List<PlacedBlock> blocks) {
    TileGrid grid = new TileGrid(8, 1, SIDE, SIDE);
    float[] p = new float[grid.count() * SurfaceClass.COUNT];
    for (int i = 0; i < grid.count(); i++) {
      double x = 8 * (i % COLUMNS + 0.5);
      double y = SIDE - 8 * (i / COLUMNS + 0.5);
      boolean block = false;
      for (PlacedBlock b : blocks) {
        block |= x > b.x() && x < b.x() + b.width() && y > b.y() && y < b.y() + b.height();
      }
      SurfaceClass s = block ? SurfaceClass.MACRO : SurfaceClass.CELL_ROWS;
      p[i * SurfaceClass.COUNT + s.ordinal()] = 1;
    }
    TileProbabilities tiles = new TileProbabilities(grid, p, new float[grid.count()]);
    return TileLooks.of(tiles, 1, new PlaneTransform(8, 0, 0, 0, 8, 0), COLUMNS, COLUMNS);
  }

  /** Random structure of about 4 um. */
  public static GrayRaster texture(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[] v = new float[SIDE * SIDE];
    for (int i = 0; i < v.length; i++) {
      v[i] = (float) random.nextDouble();
    }
    return ImageFilters.gaussian(GrayRaster.over(SIDE, SIDE, v), 1.2);
  }

  /** A copy with a rectangle of another picture laid into it. */
  public static GrayRaster with(
      GrayRaster in, GrayRaster from, int fromX, int fromY, int x, int y, int w, int h) {
    float[] out = in.array().clone();
    for (int r = 0; r < h; r++) {
      System.arraycopy(from.array(), (fromY + r) * SIDE + fromX, out, (y + r) * SIDE + x, w);
    }
    return GrayRaster.over(SIDE, SIDE, out);
  }

  /** Marks tiles wholly or partly in a rectangle, px. */
  public static void mark(boolean[] tiles, int x, int y, int w, int h) {
    for (int r = y / 8; r <= (y + h - 1) / 8; r++) {
      for (int c = x / 8; c <= (x + w - 1) / 8; c++) {
        tiles[r * COLUMNS + c] = true;
      }
    }
  }

  /** A block by its upper left corner, px. */
  public static PlacedBlock block(DieClass c, int x, int y, int w, int h) {
    return new PlacedBlock(c, x, SIDE - y - h, w, h);
  }
}
