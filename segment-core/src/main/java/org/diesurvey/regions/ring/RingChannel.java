package org.diesurvey.regions.ring;

import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.Axis;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * Where the I/O cells of a side end to a quarter tile: at the channel between them and the core, if
 * there is one near the depth that the tiles give.
 */
final class RingChannel {
  /**
   * Quiet frame of an I/O cell beyond its last device, um: well edge and guard ring (common
   * practice, no source); at most half of the channel to the core is taken for it.
   */
  private static final double CELL_FRAME_UM = 20;

  /** Evidence for I/O cells, log odds, that leaves no doubt. */
  private static final double FIRM = 1.5;

  private final FineMap fine;
  private final TileGrid grid;
  private final double snapUm;

  /**
   * @param snapUm how far from the change of evidence the channel is looked for, um
   */
  RingChannel(FineMap fine, TileGrid grid, double snapUm) {
    this.fine = fine;
    this.grid = grid;
    this.snapUm = snapUm;
  }

  /**
   * Depth of the ring on a side.
   *
   * @param depth of the ring, tiles
   * @param first first place along the side that no other side's ring reaches, tiles
   * @param end the same from the other end, not included
   * @param evidence for I/O cells against core by depth in tiles, log odds
   * @return px below the die's edge
   */
  double depthPx(DieSide side, int depth, int first, int end, double[] evidence) {
    SideView cells = new SideView(side, fine.columns(), fine.rows());
    int q = FineMap.PER_TILE;
    int from = first * q;
    int to = end * q;
    if (to - from < 12 * q) {
      return fromEdge(cells, depth * q);
    }
    int reach = (int) Math.round(snapUm / fine.cellUm());
    int low = Math.max(q, depth * q - 2 * reach);
    int high = Math.min(cells.depth() - q, depth * q + 2 * reach);
    double[] profile = new double[high - low];
    for (int d = low; d < high; d++) {
      profile[d - low] = activityAcross(cells, d, from, to);
    }
    double[] smooth = smooth(profile, 2);
    int centre = depth * q - low;
    int firm = firmlyIo(evidence, depth) * q - low;
    int start = Math.max(Math.max(0, centre - reach), firm);
    int last = Math.min(profile.length - 1, centre + reach);
    int valley = start;
    for (int i = start; i <= last; i++) {
      if (smooth[i] < smooth[valley]) {
        valley = i;
      }
    }
    double ring = highest(smooth, Math.max(0, valley - reach), valley);
    double core = highest(smooth, valley, Math.min(smooth.length, valley + reach));
    double bottom = smooth[valley];
    double active = Math.min(ring, core);
    if (bottom > 0.6 * active) {
      return fromEdge(cells, depth * q);
    }
    // I/O cells have quiet gaps of their own: the channel to the core is the innermost quiet place.
    for (int i = valley; i <= last; i++) {
      if (smooth[i] <= bottom + 0.2 * (active - bottom)) {
        valley = i;
      }
    }
    ring = highest(smooth, Math.max(0, valley - reach), valley);
    double level = smooth[valley] + 0.5 * (ring - smooth[valley]);
    int i = valley;
    // Bond pads may be quiet too: what is firmly I/O stays in the ring.
    while (i > Math.max(0, firm) && smooth[i] < level) {
      i--;
    }
    int flank = i + 1;
    double coreLevel = smooth[valley] + 0.5 * (core - smooth[valley]);
    int coreStart = valley;
    while (coreStart < smooth.length - 1 && smooth[coreStart] < coreLevel) {
      coreStart++;
    }
    int frame = (int) Math.min((coreStart - flank) / 2, Math.round(CELL_FRAME_UM / fine.cellUm()));
    return fromEdge(cells, low + flank + Math.max(0, frame));
  }

  /** The last depth before a given one at which the evidence for I/O cells leaves no doubt. */
  private static int firmlyIo(double[] evidence, int depth) {
    for (int d = Math.min(depth, evidence.length) - 1; d >= 0; d--) {
      if (evidence[d] >= FIRM) {
        return d;
      }
    }
    return 0;
  }

  /**
   * Depth in px below the die's edge of a number of quarter tiles; the last tile of a row or column
   * may be cut.
   */
  private double fromEdge(SideView cells, int depth) {
    double cellPx = grid.tilePx() / FineMap.PER_TILE;
    double extent = cells.side().along() == Axis.X ? grid.height() : grid.width();
    return cells.side().far() ? extent - (cells.depth() - depth) * cellPx : depth * cellPx;
  }

  private double activityAcross(SideView cells, int depth, int from, int to) {
    double sum = 0;
    for (int p = from; p < to; p++) {
      sum += fine.activity(cells.row(depth, p), cells.column(depth, p));
    }
    return sum / (to - from);
  }

  private static double[] smooth(double[] v, int reach) {
    double[] out = new double[v.length];
    for (int i = 0; i < v.length; i++) {
      int a = Math.max(0, i - reach);
      int b = Math.min(v.length - 1, i + reach);
      for (int k = a; k <= b; k++) {
        out[i] += v[k] / (b - a + 1);
      }
    }
    return out;
  }

  private static double highest(double[] v, int from, int to) {
    double best = 0;
    for (int i = from; i < to; i++) {
      best = Math.max(best, v[i]);
    }
    return best;
  }
}
