package org.diesurvey.features;

import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.TileGrid;

/** What the forming of regions needs of a drawn die, without the features that classes need. */
public final class DrawnTable {
  private DrawnTable() {}

  /** Grey and activity on quarter tiles of a picture that is the upright die. */
  public static FineMap fine(PixelSource picture, TileGrid grid) {
    GrayRaster upright = new GrayRaster(picture.width(), picture.height());
    picture.readGray(new PixelRect(0, 0, picture.width(), picture.height()), upright.array());
    FineMap fine = new FineMap(grid);
    fine.fill(upright, 0, 0, grid.rows());
    return fine;
  }

  /** The same as a table whose tiles have no features; damaged as said. */
  public static FeatureTable of(PixelSource picture, TileGrid grid, boolean[] damaged) {
    return FeatureTable.restored(
        grid, new float[grid.count()][0], new float[grid.count()], damaged, fine(picture, grid));
  }

  /** The same without damage. */
  public static FeatureTable of(PixelSource picture, TileGrid grid) {
    return of(picture, grid, new boolean[grid.count()]);
  }
}
