package org.diesurvey.features;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/** What the forming of regions needs of a drawn die, without the features that classes need. */
public final class DrawnTable {
  private static final Map<String, FineMap> KEPT = new ConcurrentHashMap<>();

  private DrawnTable() {}

  /**
   * A fine map that is drawn once for all tests with this key: mutation testing runs a test
   * hundreds of times, and most of its time would go into drawing.
   */
  public static FineMap kept(String key, Supplier<FineMap> drawn) {
    return KEPT.computeIfAbsent(key, k -> drawn.get());
  }

  /** A value of a cell of the fine map. */
  public interface Cell {
    /** At a row and a column of cells. */
    double at(int row, int column);
  }

  /** Grey and activity given cell by cell. */
  public static FineMap cells(TileGrid grid, Cell grey, Cell activity) {
    FineMap fine = new FineMap(grid);
    for (int r = 0; r < fine.rows(); r++) {
      for (int c = 0; c < fine.columns(); c++) {
        fine.set(r, c, (float) grey.at(r, c), (float) activity.at(r, c));
      }
    }
    return fine;
  }

  /** A table of undamaged tiles without features. */
  public static FeatureTable of(FineMap fine, TileGrid grid) {
    return of(fine, grid, new boolean[grid.count()]);
  }

  /** A table of tiles without features, damaged as said. */
  public static FeatureTable of(FineMap fine, TileGrid grid, boolean[] damaged) {
    return of(fine, grid, damaged, new float[grid.count()]);
  }

  /** A table of undamaged tiles that have a contrast and no other features. */
  public static FeatureTable ofContrast(TileGrid grid, float[] contrast) {
    return of(new FineMap(grid), grid, new boolean[grid.count()], contrast);
  }

  private static FeatureTable of(FineMap fine, TileGrid grid, boolean[] damaged, float[] contrast) {
    return FeatureTable.restored(
        grid,
        RowStore.inMemory(grid.rows(), 0),
        contrast,
        damaged,
        fine,
        DamageMap.of(new LabelRaster(grid.columns(), grid.rows()), grid.tileUm()));
  }

  /** Grey and activity on quarter tiles of a picture that is the upright die. */
  public static FineMap fine(PixelSource picture, TileGrid grid) {
    GrayRaster upright = new GrayRaster(picture.width(), picture.height());
    picture.readGray(new PixelRect(0, 0, picture.width(), picture.height()), upright.array());
    FineMap fine = new FineMap(grid);
    fine.fill(upright, 0, 0, LevelPart.Tiles.all(grid).asRect());
    return fine;
  }

  /** The same as a table. */
  public static FeatureTable of(PixelSource picture, TileGrid grid) {
    return of(fine(picture, grid), grid);
  }
}
