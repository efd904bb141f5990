package org.diesurvey.inspection;

import java.util.List;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/**
 * A coarse grid of nearly square cells over the photograph, each looked at through one square
 * window in its middle.
 *
 * @param width of the photograph, px
 * @param height of the photograph, px
 * @param columns at least 1
 * @param rows at least 1
 * @param sidePx side of a window, a power of two
 */
record FieldGrid(int width, int height, int columns, int rows, int sidePx) {
  private static final int LARGEST_SIDE_PX = 128;
  private static final int SMALLEST_SIDE_PX = 32;

  /**
   * @param longCells cells along the longer side, at most
   */
  static FieldGrid over(PixelSource photo, int longCells) {
    int w = photo.width();
    int h = photo.height();
    int longest = Math.max(w, h);
    int cells = Math.max(1, Math.min(longCells, longest / SMALLEST_SIDE_PX / 2));
    double cell = longest / (double) cells;
    int columns = Math.max(1, (int) Math.round(w / cell));
    int rows = Math.max(1, (int) Math.round(h / cell));
    double least = Math.min(w / (double) columns, h / (double) rows);
    int side = Integer.highestOneBit((int) Math.min(LARGEST_SIDE_PX, least));
    return new FieldGrid(w, h, columns, rows, side);
  }

  int count() {
    return columns * rows;
  }

  double centreX(int cell) {
    return (cell % columns + 0.5) * width / columns;
  }

  double centreY(int cell) {
    return (cell / columns + 0.5) * height / rows;
  }

  PixelRect window(int cell) {
    int x = (int) Math.round(centreX(cell)) - sidePx / 2;
    int y = (int) Math.round(centreY(cell)) - sidePx / 2;
    return new PixelRect(
        Math.max(0, Math.min(x, width - sidePx)),
        Math.max(0, Math.min(y, height - sidePx)),
        sidePx,
        sidePx);
  }

  GrayRaster read(PixelSource photo, int cell) {
    GrayRaster raster = new GrayRaster(sidePx, sidePx);
    photo.readGray(window(cell), raster.array());
    return raster;
  }

  /** Whether the whole window of a cell lies on the die; everywhere where no edge was found. */
  boolean onDie(int cell, DieLocation frame) {
    PixelRect r = window(cell);
    return !frame.edgeFound()
        || inside(frame.corners(), r.x(), r.y())
            && inside(frame.corners(), r.x() + r.width(), r.y())
            && inside(frame.corners(), r.x(), r.y() + r.height())
            && inside(frame.corners(), r.x() + r.width(), r.y() + r.height());
  }

  /** Whether a place lies inside corners given clockwise as seen, y down. */
  static boolean inside(List<PixelPoint> corners, double x, double y) {
    for (int i = 0; i < corners.size(); i++) {
      PixelPoint a = corners.get(i);
      PixelPoint b = corners.get((i + 1) % corners.size());
      if ((b.x() - a.x()) * (y - a.y()) - (b.y() - a.y()) * (x - a.x()) < 0) {
        return false;
      }
    }
    return true;
  }
}
