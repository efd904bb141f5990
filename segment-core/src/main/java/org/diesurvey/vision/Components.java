package org.diesurvey.vision;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.imgproc.Imgproc;

/**
 * Connected components and mask morphology; masks are label rasters whose non-zero cells are set.
 */
public final class Components {
  private Components() {}

  /**
   * One 4-connected component.
   *
   * @param id value in {@link Labelling#ids()}
   * @param bounds smallest rectangle around it
   * @param cells number of cells
   */
  public record Component(int id, PixelRect bounds, int cells) {}

  /** The component number of every cell (0 = not set) and the components in scan order. */
  public static final class Labelling {
    private final int[] ids;
    private final List<Component> components;

    private Labelling(int[] ids, List<Component> components) {
      this.ids = ids;
      this.components = List.copyOf(components);
    }

    /** Row-major component numbers. */
    public int[] ids() {
      return ids;
    }

    /** All components. */
    public List<Component> components() {
      return components;
    }
  }

  /** Labels the 4-connected components of the set cells. */
  public static Labelling label(LabelRaster mask) {
    try (MatScope scope = new MatScope()) {
      Mat src = scope.bytes(mask.width(), mask.height(), mask.array());
      Mat labels = scope.empty();
      Mat stats = scope.empty();
      Mat centroids = scope.empty();
      int n = Imgproc.connectedComponentsWithStats(src, labels, stats, centroids, 4, CvType.CV_32S);
      int[] ids = new int[mask.width() * mask.height()];
      labels.get(0, 0, ids);
      List<Component> list = new ArrayList<>();
      int[] row = new int[5];
      for (int i = 1; i < n; i++) {
        stats.get(i, 0, row);
        list.add(new Component(i, new PixelRect(row[0], row[1], row[2], row[3]), row[4]));
      }
      return new Labelling(ids, list);
    }
  }

  /** Row-major numbers of the 4-connected components of the set cells, from 1 on; 0 = not set. */
  public static int[] ids(LabelRaster mask) {
    try (MatScope scope = new MatScope()) {
      Mat labels = scope.empty();
      Imgproc.connectedComponents(
          scope.bytes(mask.width(), mask.height(), mask.array()), labels, 4, CvType.CV_32S);
      int[] ids = new int[mask.width() * mask.height()];
      labels.get(0, 0, ids);
      return ids;
    }
  }
}
