package org.diesurvey.regions.ring;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * The ring along one side, unrolled: grey on cells of a quarter tile, by depth below the die's edge
 * and place along it. Keeps sums, so that the mean of any rectangle is at hand.
 */
public final class RingStrip {
  /** Thinner strips hold no pad, cells. */
  private static final int LEAST_DEPTH = 8;

  /** Grey at a depth and a place, cells. */
  interface Grey {
    double at(int depth, int place);
  }

  /** Sums over the strips are formed in this order. */
  private static final List<DieSide> ORDER =
      List.of(DieSide.LEFT, DieSide.UPPER, DieSide.RIGHT, DieSide.LOWER);

  private final int depth;
  private final int length;
  private final double[][] sum;
  private final double[][] square;

  RingStrip(int depth, int length, Grey grey) {
    this.depth = depth;
    this.length = length;
    this.sum = new double[depth + 1][length + 1];
    this.square = new double[depth + 1][length + 1];
    for (int d = 0; d < depth; d++) {
      double s = 0;
      double q = 0;
      for (int p = 0; p < length; p++) {
        double g = grey.at(d, p);
        s += g;
        q += g * g;
        sum[d + 1][p + 1] = sum[d][p + 1] + s;
        square[d + 1][p + 1] = square[d][p + 1] + q;
      }
    }
  }

  /** The strips of all sides that have a ring. */
  public static List<RingStrip> of(FineMap fine, TileGrid grid, PadRing ring) {
    double cell = grid.tilePx() / FineMap.PER_TILE;
    int columns = Math.min(fine.columns(), (int) (grid.width() / cell));
    int rows = Math.min(fine.rows(), (int) (grid.height() / cell));
    List<RingStrip> out = new ArrayList<>();
    for (DieSide side : ORDER) {
      SideView v = new SideView(side, columns, rows);
      int cells = (int) Math.min(ring.depth(side) / cell, v.depth());
      if (cells >= LEAST_DEPTH) {
        out.add(new RingStrip(cells, v.length(), (d, p) -> fine.grey(v.row(d, p), v.column(d, p))));
      }
    }
    return out;
  }

  int depth() {
    return depth;
  }

  int length() {
    return length;
  }

  /** Mean grey over depths d0 to d1 and places p0 to p1, ends not included. */
  double mean(int d0, int d1, int p0, int p1) {
    return total(sum, d0, d1, p0, p1) / ((d1 - d0) * (p1 - p0));
  }

  /** Standard deviation of grey over a rectangle. */
  double deviation(int d0, int d1, int p0, int p1) {
    double m = mean(d0, d1, p0, p1);
    double s = total(square, d0, d1, p0, p1) / ((d1 - d0) * (p1 - p0));
    return Math.sqrt(Math.max(0, s - m * m));
  }

  private static double total(double[][] of, int d0, int d1, int p0, int p1) {
    return of[d1][p1] - of[d0][p1] - of[d1][p0] + of[d0][p0];
  }
}
