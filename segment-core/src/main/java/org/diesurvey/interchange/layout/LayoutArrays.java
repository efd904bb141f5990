package org.diesurvey.interchange.layout;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/** Bit-cell arrays from the rectangles of single bit cells, um of the picture, y down. */
final class LayoutArrays {
  /** Cells apart by less than this belong to one array: straps and word-line taps, um. */
  private static final double GAP_UM = 3;

  /** Side of the cells on which clusters are found, um, and how many a side has at most. */
  private static final double GRID_UM = 0.5;

  private static final int MOST_GRID = 8000;

  /** Fewer bit cells are no array. */
  private static final int LEAST_CELLS = 12;

  /** Steps shorter than this are no lattice, um. */
  private static final double LEAST_STEP_UM = 0.05;

  private LayoutArrays() {}

  /**
   * Bounding rectangles of clusters of bit cells, clipped to the picture, from the top down.
   *
   * @param bits rectangles, um
   */
  static List<LayoutCells.Box> of(List<LayoutCells.Box> bits, double widthUm, double heightUm) {
    if (bits.isEmpty()) {
      return List.of();
    }
    double grid = Math.max(GRID_UM, Math.max(widthUm, heightUm) / MOST_GRID);
    int margin = (int) Math.ceil(GAP_UM / grid) + 1;
    int w = (int) Math.ceil(widthUm / grid) + 2 * margin;
    int h = (int) Math.ceil(heightUm / grid) + 2 * margin;
    LabelRaster mask = new LabelRaster(w, h);
    for (LayoutCells.Box b : bits) {
      for (int y = cell(b.y0(), grid, margin, h); y <= cell(b.y1(), grid, margin, h); y++) {
        for (int x = cell(b.x0(), grid, margin, w); x <= cell(b.x1(), grid, margin, w); x++) {
          mask.set(x, y, 1);
        }
      }
    }
    int reach = (int) Math.round(GAP_UM / grid / 2);
    Components.Labelling parts = Components.label(Morphology.close(mask, reach));
    LayoutCells.Box[] around = new LayoutCells.Box[parts.components().size() + 1];
    int[] count = new int[around.length];
    for (LayoutCells.Box b : bits) {
      int y = cell((b.y0() + b.y1()) / 2, grid, margin, h);
      int x = cell((b.x0() + b.x1()) / 2, grid, margin, w);
      int id = parts.ids()[y * w + x];
      around[id] = around[id] == null ? b : around[id].with(b);
      count[id]++;
    }
    List<LayoutCells.Box> out = new ArrayList<>();
    for (int id = 1; id < around.length; id++) {
      if (count[id] >= LEAST_CELLS) {
        LayoutCells.Box b = around[id];
        LayoutCells.Box in =
            new LayoutCells.Box(
                Math.max(0, b.x0()),
                Math.max(0, b.y0()),
                Math.min(widthUm, b.x1()),
                Math.min(heightUm, b.y1()));
        if (in.x1() > in.x0() && in.y1() > in.y0()) {
          out.add(in);
        }
      }
    }
    return out;
  }

  private static int cell(double um, double grid, int margin, int limit) {
    return Math.max(0, Math.min(limit - 1, (int) Math.floor(um / grid) + margin));
  }

  /**
   * Pitch of the lattice of bit cells along one axis: half the median of two steps, so that
   * mirrored neighbours do not matter; empty with fewer than three places.
   *
   * @param middle of a cell along the axis
   */
  static OptionalDouble pitch(
      List<LayoutCells.Box> bits, ToDoubleFunction<LayoutCells.Box> middle) {
    double[] places = bits.stream().mapToDouble(middle).sorted().toArray();
    double[] apart = new double[places.length];
    int n = 0;
    for (double p : places) {
      if (n == 0 || p - apart[n - 1] > LEAST_STEP_UM) {
        apart[n++] = p;
      }
    }
    if (n < 3) {
      return OptionalDouble.empty();
    }
    double[] steps = new double[n - 2];
    for (int i = 0; i + 2 < n; i++) {
      steps[i] = (apart[i + 2] - apart[i]) / 2;
    }
    Arrays.sort(steps);
    return OptionalDouble.of(steps[steps.length / 2]);
  }
}
