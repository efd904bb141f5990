package org.diesurvey.regions.ring;

import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * Finds the pad ring as one structure: on each side the depth at which the evidence of all tiles
 * along it changes from I/O cells to core, then the straight channel next to it, which is where the
 * I/O cells end.
 */
public final class PadRingFinder {
  /**
   * Deepest ring looked for, um; two staggered rows of pads with drivers stay below it (common
   * practice, no source).
   */
  private static final double DEEPEST_UM = 620;

  /** Shallowest ring, um: a bond pad alone (common practice, no source). */
  private static final double SHALLOWEST_UM = 50;

  /** How far from the change of evidence the channel is looked for, um. */
  private static final double SNAP_UM = 56;

  /**
   * Quiet frame of an I/O cell beyond its last device, um: well edge and guard ring (common
   * practice, no source); at most half of the channel to the core is taken for it.
   */
  private static final double CELL_FRAME_UM = 20;

  /** Bare margins narrower than this are the seal ring and its clearance, um (own choice). */
  private static final double LEAST_MARGIN_UM = 40;

  /** Mean probability of bare surface from which a line along a side is margin (own choice). */
  private static final double BARE_MARGIN = 0.5;

  private static final double FLOOR = 0.02;

  /** Evidence for I/O cells, log odds, that leaves no doubt. */
  private static final double FIRM = 1.5;

  /** Mean evidence against I/O cells, log odds, that keeps a side shallower than the others. */
  private static final double LEAST_AGAINST = -0.7;

  /** Part of the evidence for macros and periphery that counts for the ring (on drawn dies). */
  private static final double FOR_RING = 0.44;

  /** What bare surface speaks against the ring, log odds, so that a ring ends at its last cell. */
  private static final double BARE_COST = 0.9;

  /** Most of the evidence for rows and arrays in a band of drivers. */
  private static final double MOST_CORE = 0.25;

  /** Least evidence for bare surface that makes a channel along a whole side. */
  private static final double CHANNEL = 0.45;

  /** Least evidence for devices in a band of drivers, mean along the side (on drawn dies). */
  private static final double LEAST_DRIVERS = 0.5;

  /** Deepest band of drivers beyond what is surely I/O, um (common practice, no source). */
  private static final double BAND_UM = 300;

  private static final SurfaceClass[] CORE = {SurfaceClass.BIT_CELLS, SurfaceClass.CELL_ROWS};

  /** Bit cells or rows over less than this along a side may be part of I/O cells, um. */
  private static final double RUN_UM = 130;

  private final TileProbabilities probabilities;
  private final FineMap fine;
  private final TileGrid grid;
  private final List<DieSide> real;

  /** Sides in the order of this class. */
  private static final List<DieSide> SIDES =
      List.of(DieSide.LEFT, DieSide.UPPER, DieSide.RIGHT, DieSide.LOWER);

  /**
   * @param real sides where the die ends; the others have no ring
   */
  public PadRingFinder(TileProbabilities probabilities, FeatureTable features, List<DieSide> real) {
    this.real = real;
    this.probabilities = probabilities;
    this.fine = features.fine();
    this.grid = probabilities.grid();
  }

  public PadRing find() {
    int[] depth = new int[4];
    int start = (int) Math.round(SHALLOWEST_UM * 3 / grid.tileUm());
    for (int side = 0; side < 4; side++) {
      depth[side] = hasEdge(side) ? start : 0;
    }
    // Corners belong to two sides: a side is judged without its neighbours' depth, so repeat until
    // it settles.
    for (int pass = 0; pass < 3; pass++) {
      int[] next = new int[4];
      for (int side = 0; side < 4; side++) {
        next[side] =
            hasEdge(side)
                ? depthOf(evidence(side, depth[(side + 3) % 4], depth[(side + 1) % 4]))
                : 0;
      }
      depth = next;
    }
    depth = settle(depth);
    int[] reached = depth.clone();
    for (int side = 0; side < 4; side++) {
      reached[side] =
          throughDrivers(side, depth[side], depth[(side + 3) % 4], depth[(side + 1) % 4]);
    }
    depth = reached;
    double[] px = new double[4];
    for (int side = 0; side < 4; side++) {
      px[side] =
          depth[side] == 0
              ? 0
              : snap(side, depth[side], depth[(side + 3) % 4], depth[(side + 1) % 4]);
    }
    return new PadRing(px[0], px[1], px[2], px[3], margin(depth));
  }

  /** Bare ground outside the ring, px; wider than any seal ring, or it counts for the ring. */
  private double margin(int[] depth) {
    int least = Integer.MAX_VALUE;
    for (int side = 0; side < 4; side++) {
      if (depth[side] == 0) {
        continue;
      }
      int from = first(side, depth[(side + 3) % 4], depth[(side + 1) % 4]);
      int to = end(side, depth[(side + 3) % 4], depth[(side + 1) % 4]);
      int bare = 0;
      while (bare < depth[side] - 1 && bareShare(side, bare, from, to) >= BARE_MARGIN) {
        bare++;
      }
      least = Math.min(least, bare);
    }
    boolean wide = least < Integer.MAX_VALUE && least * grid.tileUm() >= LEAST_MARGIN_UM;
    return wide ? least * grid.tilePx() : 0;
  }

  /** Mean probability of bare surface at a depth below a side. */
  private double bareShare(int side, int depth, int from, int to) {
    double bare = 0;
    for (int p = from; p < to; p++) {
      bare += probabilities.get(tile(side, depth, p), SurfaceClass.BARE) / (to - from);
    }
    return bare;
  }

  private boolean hasEdge(int side) {
    return real.contains(SIDES.get(side));
  }

  /** Sides in the order left, top, right, bottom. */
  private int across(int side) {
    return side % 2 == 0 ? grid.columns() : grid.rows();
  }

  private int along(int side) {
    return side % 2 == 0 ? grid.rows() : grid.columns();
  }

  private int tile(int side, int depth, int place) {
    return switch (side) {
      case 0 -> place * grid.columns() + depth;
      case 1 -> depth * grid.columns() + place;
      case 2 -> place * grid.columns() + grid.columns() - 1 - depth;
      default -> (grid.rows() - 1 - depth) * grid.columns() + place;
    };
  }

  /**
   * Neighbours' depths in the order of places along the side: before place 0 and after the last.
   */
  private int before(int side, int previous, int next) {
    return side == 1 || side == 2 ? previous : next;
  }

  private int after(int side, int previous, int next) {
    return side == 1 || side == 2 ? next : previous;
  }

  /**
   * Evidence for I/O cells against core at each depth below a side, natural logarithm of the odds,
   * mean over the tiles along the side.
   */
  private double[] evidence(int side, int previous, int next) {
    int limit = Math.min((int) (DEEPEST_UM / grid.tileUm()), (int) (0.45 * across(side)));
    int from = first(side, previous, next);
    int to = end(side, previous, next);
    double[] evidence = new double[limit];
    for (int d = 0; d < limit; d++) {
      double sum = 0;
      for (int p = from; p < to; p++) {
        int t = tile(side, d, p);
        // Drivers of I/O cells can look like a macro or like a memory's periphery: these speak
        // only a little against a ring.
        double core = core(side, d, p);
        double io = probabilities.get(t, SurfaceClass.IO_CELLS);
        double bare = probabilities.get(t, SurfaceClass.BARE);
        double either = 1 - io - core - bare;
        io += FOR_RING * either;
        core += (1 - FOR_RING) * either;
        double odds = Math.max(-2, Math.min(2, Math.log((io + FLOOR) / (core + FLOOR))));
        sum += odds * (1 - bare) - BARE_COST * bare;
      }
      evidence[d] = sum / Math.max(1, to - from);
    }
    return evidence;
  }

  private int first(int side, int previous, int next) {
    return Math.min(before(side, previous, next) + 2, along(side) / 3);
  }

  private int end(int side, int previous, int next) {
    return along(side) - Math.min(after(side, previous, next) + 2, along(side) / 3);
  }

  /** Evidence for rows or arrays that are wider than an I/O cell. */
  private double core(int side, int depth, int place) {
    double sum = 0;
    for (SurfaceClass c : CORE) {
      sum += inLongRun(c, side, depth, place) * probabilities.get(tile(side, depth, place), c);
    }
    return sum;
  }

  /**
   * A band along a whole side, neither rows nor array but devices, that ends at a channel along
   * that side, is the drivers of the I/O cells.
   */
  private int throughDrivers(int side, int depth, int previous, int next) {
    int limit = Math.min(depth + (int) (BAND_UM / grid.tileUm()), (int) (0.45 * across(side)) - 1);
    int from = first(side, previous, next);
    int to = end(side, previous, next);
    double cores = 0;
    for (int d = Math.max(0, depth - 1); depth > 0 && d < limit; d++) {
      double bare = bareShare(side, d, from, to);
      double core = 0;
      for (int p = from; p < to; p++) {
        core += core(side, d, p) / (to - from);
      }
      cores += core;
      if (bare >= CHANNEL) {
        return Math.max(depth, d);
      }
      boolean loose = d >= depth && 1 - bare - core < LEAST_DRIVERS;
      if (loose || cores > MOST_CORE * (d + 2 - depth)) {
        return depth;
      }
    }
    return depth;
  }

  /**
   * How surely a place lies in a run of a class along the side that is longer than an I/O cell is
   * wide, 0 to 1: a memory or rows, and not a device or a few rows that each I/O cell repeats.
   */
  private double inLongRun(SurfaceClass c, int side, int depth, int place) {
    int reach = (int) Math.round(RUN_UM / 2 / grid.tileUm());
    int from = Math.max(0, place - reach);
    int to = Math.min(along(side) - 1, place + reach);
    double sum = 0;
    for (int p = from; p <= to; p++) {
      sum += probabilities.get(tile(side, depth, p), c);
    }
    double share = sum / (to - from + 1);
    return Math.max(0, Math.min(1, (share - 0.35) / 0.3));
  }

  private int depthOf(double[] evidence) {
    double prefix = 0;
    double best = 0;
    int at = 0;
    for (int d = 0; d < evidence.length; d++) {
      prefix += evidence[d];
      if (prefix > best) {
        best = prefix;
        at = d + 1;
      }
    }
    return at * grid.tileUm() < SHALLOWEST_UM ? 0 : at;
  }

  /**
   * Sides of a ring are mostly equally deep: a side whose own evidence hardly speaks against the
   * middle depth of all sides takes it.
   */
  private int[] settle(int[] depth) {
    if (real.size() < 4) {
      return depth;
    }
    int[] sorted = depth.clone();
    java.util.Arrays.sort(sorted);
    int common = (sorted[1] + sorted[2]) / 2;
    int[] out = depth.clone();
    for (int side = 0; side < 4; side++) {
      if (sorted[1] == 0 || depth[side] == 0 || depth[side] >= common - 2) {
        continue;
      }
      double[] e = evidence(side, depth[(side + 3) % 4], depth[(side + 1) % 4]);
      double between = 0;
      for (int d = depth[side]; d < Math.min(common, e.length); d++) {
        between += e[d] / (common - depth[side]);
      }
      if (between > LEAST_AGAINST) {
        out[side] = common;
      }
    }
    return out;
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

  private double snap(int side, int depth, int previous, int next) {
    int q = FineMap.PER_TILE;
    int from = (before(side, previous, next) + 3) * q;
    int to = (along(side) - after(side, previous, next) - 3) * q;
    if (to - from < 12 * q) {
      return fromEdge(side, depth * q);
    }
    int reach = (int) Math.round(SNAP_UM / fine.cellUm());
    int low = Math.max(q, depth * q - 2 * reach);
    int high = Math.min(across(side) * q - q, depth * q + 2 * reach);
    double[] profile = new double[high - low];
    for (int d = low; d < high; d++) {
      profile[d - low] = activityAcross(side, d, from, to);
    }
    double[] smooth = smooth(profile, 2);
    int centre = depth * q - low;
    int firm = firmlyIo(evidence(side, previous, next), depth) * q - low;
    int first = Math.max(Math.max(0, centre - reach), firm);
    int last = Math.min(profile.length - 1, centre + reach);
    int valley = first;
    for (int i = first; i <= last; i++) {
      if (smooth[i] < smooth[valley]) {
        valley = i;
      }
    }
    double ring = highest(smooth, Math.max(0, valley - reach), valley);
    double core = highest(smooth, valley, Math.min(smooth.length, valley + reach));
    double bottom = smooth[valley];
    double active = Math.min(ring, core);
    if (bottom > 0.6 * active) {
      return fromEdge(side, depth * q);
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
    return fromEdge(side, low + flank + Math.max(0, frame));
  }

  /**
   * Depth in px below the die's edge of a number of quarter tiles; the last tile of a row or column
   * may be cut.
   */
  private double fromEdge(int side, int cells) {
    double cellPx = grid.tilePx() / FineMap.PER_TILE;
    double extent = side % 2 == 0 ? grid.width() : grid.height();
    return side < 2 ? cells * cellPx : extent - (across(side) * FineMap.PER_TILE - cells) * cellPx;
  }

  private double activityAcross(int side, int depth, int from, int to) {
    double sum = 0;
    for (int p = from; p < to; p++) {
      sum +=
          switch (side) {
            case 0 -> fine.activity(p, depth);
            case 1 -> fine.activity(depth, p);
            case 2 -> fine.activity(p, fine.columns() - 1 - depth);
            default -> fine.activity(fine.rows() - 1 - depth, p);
          };
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
