package org.diesurvey.vision;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
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

  /**
   * Parts components at their necks: what is left of one after an opening are its bodies, and each
   * of its cells belongs to the body that is nearest along the cells. One without a body, or with
   * one alone, stays whole.
   *
   * @param radius cells; necks of up to twice this are cut
   */
  public static Labelling partedAtNecks(LabelRaster mask, int radius) {
    int width = mask.width();
    int[] whole = ids(mask);
    int[] bodies = ids(Morphology.open(mask, radius));
    int[] ids = bodies.clone();
    spread(ids, 0, width, i -> whole[i] > 0);
    int free = Arrays.stream(bodies).max().orElse(0) + 1;
    for (int i = 0; i < ids.length; i++) {
      ids[i] = whole[i] > 0 && ids[i] == 0 ? free + whole[i] : ids[i];
    }
    return labelling(ids, width);
  }

  /**
   * Gives cells without a label that of the nearest one, one step at a time over the four sides.
   *
   * @param labels row by row, changed in place
   * @param none what stands where there is no label
   * @param open which cells may get one; the way leads over these
   */
  public static void spread(int[] labels, int none, int width, IntPredicate open) {
    int[] queue = new int[labels.length];
    int end = 0;
    for (int i = 0; i < labels.length; i++) {
      if (labels[i] != none) {
        queue[end++] = i;
      }
    }
    for (int at = 0; at < end; at++) {
      int i = queue[at];
      int x = i % width;
      int[] beside = {i - width, x > 0 ? i - 1 : -1, x + 1 < width ? i + 1 : -1, i + width};
      for (int n : beside) {
        if (n >= 0 && n < labels.length && labels[n] == none && open.test(n)) {
          labels[n] = labels[i];
          queue[end++] = n;
        }
      }
    }
  }

  /** Numbers the cells anew, in scan order of the components. */
  private static Labelling labelling(int[] given, int width) {
    Map<Integer, int[]> found = new LinkedHashMap<>();
    int[] ids = new int[given.length];
    for (int i = 0; i < given.length; i++) {
      if (given[i] == 0) {
        continue;
      }
      int x = i % width;
      int y = i / width;
      int[] of = found.computeIfAbsent(given[i], k -> new int[] {found.size() + 1, x, y, x, y, 0});
      of[1] = Math.min(of[1], x);
      of[2] = Math.min(of[2], y);
      of[3] = Math.max(of[3], x);
      of[4] = Math.max(of[4], y);
      of[5]++;
      ids[i] = of[0];
    }
    return new Labelling(
        ids,
        found.values().stream()
            .map(
                of ->
                    new Component(
                        of[0],
                        new PixelRect(of[1], of[2], of[3] - of[1] + 1, of[4] - of[2] + 1),
                        of[5]))
            .toList());
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
