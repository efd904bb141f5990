package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.raster.PixelPoint;

/**
 * The dies in one photograph, numbered from 1 as one reads: left to right, then top to bottom.
 *
 * @param dies at least one; a single one without edges where no die edge was found
 */
public record DieFrames(List<DieLocation> dies) {
  /** Dies whose areas differ by less than this count as equally large. */
  private static final double SAME_AREA = 0.1;

  /** Copies the list. */
  public DieFrames {
    dies = List.copyOf(dies);
    if (dies.isEmpty()) {
      throw new IllegalArgumentException("a photograph has at least one frame");
    }
  }

  /** In reading order: a die belongs to a row if its middle lies beside the row's first die. */
  static DieFrames inReadingOrder(List<DieLocation> found) {
    List<DieLocation> left = new ArrayList<>(found);
    left.sort(Comparator.comparingDouble((DieLocation f) -> middle(f).y()));
    List<DieLocation> out = new ArrayList<>();
    while (!left.isEmpty()) {
      DieLocation first = left.get(0);
      double reach = middle(first).y() + first.heightPx() / 2;
      List<DieLocation> row =
          new ArrayList<>(left.stream().filter(f -> middle(f).y() < reach).toList());
      row.sort(Comparator.comparingDouble((DieLocation f) -> middle(f).x()));
      out.addAll(row);
      left.removeAll(row);
    }
    return new DieFrames(out);
  }

  /**
   * Number of the die that is surveyed if nobody chooses: the largest, of equally large ones the
   * most central.
   *
   * @param widthPx columns of the photograph
   * @param heightPx rows of the photograph
   */
  public int usual(int widthPx, int heightPx) {
    double largest = dies.stream().mapToDouble(DieFrames::area).max().orElseThrow();
    int best = -1;
    double nearest = Double.MAX_VALUE;
    for (int i = 0; i < dies.size(); i++) {
      PixelPoint m = middle(dies.get(i));
      double off = Math.hypot(m.x() - widthPx / 2.0, m.y() - heightPx / 2.0);
      if (area(dies.get(i)) >= (1 - SAME_AREA) * largest && off < nearest) {
        best = i + 1;
        nearest = off;
      }
    }
    return best;
  }

  /** The die of a number. */
  public DieLocation die(int number) {
    return dies.get(number - 1);
  }

  private static double area(DieLocation f) {
    return f.widthPx() * f.heightPx();
  }

  /** Middle of a frame, pixel frame. */
  static PixelPoint middle(DieLocation f) {
    double x = 0;
    double y = 0;
    for (PixelPoint p : f.corners()) {
      x += p.x() / 4;
      y += p.y() / 4;
    }
    return new PixelPoint(x, y);
  }
}
