package org.diesurvey.regions.ring;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.TileGrid;

/**
 * Finds the pad ring as one structure: on each side the depth at which the evidence of all tiles
 * along it changes from I/O cells to core, then the straight channel next to it ({@link
 * RingChannel}), which is where the I/O cells end.
 */
public final class PadRingFinder {
  /**
   * Deepest ring looked for, um; two staggered rows of pads with drivers stay below it (common
   * practice, no source).
   */
  private static final double DEEPEST_UM = 620;

  /** Shallowest ring, um: a bond pad alone (common practice, no source). */
  private static final double SHALLOWEST_UM = 50;

  /** Bare margins narrower than this are the seal ring and its clearance, um (own choice). */
  private static final double LEAST_MARGIN_UM = 40;

  /** Mean probability of bare surface from which a line along a side is margin (own choice). */
  private static final double BARE_MARGIN = 0.5;

  /** Keeps the logarithm of no evidence finite (own choice). */
  private static final double FLOOR = 0.02;

  /** Mean evidence against I/O cells, log odds, that keeps a side shallower than the others. */
  private static final double LEAST_AGAINST = -0.7;

  /** Most of the evidence for rows and arrays in a band of drivers. */
  private static final double MOST_CORE = 0.25;

  /** Least evidence for devices in a band of drivers, mean along the side (on drawn dies). */
  private static final double LEAST_DRIVERS = 0.5;

  /** Deepest band of drivers beyond what is surely I/O, um (common practice, no source). */
  private static final double BAND_UM = 300;

  private static final SurfaceClass[] CORE = {SurfaceClass.BIT_CELLS, SurfaceClass.CELL_ROWS};

  private final TileProbabilities probabilities;
  private final RingChannel channel;
  private final TileGrid grid;
  private final List<DieSide> real;
  private final RingTuning tuning;
  private final Map<DieSide, SideView> tiles = new EnumMap<>(DieSide.class);

  /**
   * @param real sides where the die ends; the others have no ring
   */
  public PadRingFinder(
      TileProbabilities probabilities,
      FeatureTable features,
      List<DieSide> real,
      RingTuning tuning) {
    this.real = real;
    this.tuning = tuning;
    this.probabilities = probabilities;
    this.grid = probabilities.grid();
    this.channel = new RingChannel(features.fine(), grid, tuning.snapUm());
    for (DieSide side : DieSide.values()) {
      tiles.put(side, new SideView(side, grid.columns(), grid.rows()));
    }
  }

  public PadRing find() {
    int start = (int) Math.round(SHALLOWEST_UM * 3 / grid.tileUm());
    Map<DieSide, Integer> depth = each(v -> start);
    // Corners belong to two sides: a side is judged without its neighbours' depth, so repeat until
    // it settles.
    for (int pass = 0; pass < 3; pass++) {
      Map<DieSide, Integer> last = depth;
      depth = each(v -> depthOf(evidence(v, last)));
    }
    Map<DieSide, Integer> settled = settle(depth);
    Map<DieSide, Integer> reached = each(v -> throughDrivers(v, settled));
    return new PadRing(
        depthPx(DieSide.LEFT, reached),
        depthPx(DieSide.UPPER, reached),
        depthPx(DieSide.RIGHT, reached),
        depthPx(DieSide.LOWER, reached),
        margin(reached));
  }

  /** A depth for each side where the die ends, in tiles, and none for the others. */
  private Map<DieSide, Integer> each(ToIntFunction<SideView> depth) {
    Map<DieSide, Integer> out = new EnumMap<>(DieSide.class);
    tiles.forEach((side, v) -> out.put(side, real.contains(side) ? depth.applyAsInt(v) : 0));
    return out;
  }

  private double depthPx(DieSide side, Map<DieSide, Integer> depth) {
    if (depth.get(side) == 0) {
      return 0;
    }
    SideView v = tiles.get(side);
    return channel.depthPx(
        side,
        depth.get(side),
        depth.get(side.begin()) + 3,
        v.length() - depth.get(side.end()) - 3,
        evidence(v, depth));
  }

  /** Bare ground outside the ring, px; wider than any seal ring, or it counts for the ring. */
  private double margin(Map<DieSide, Integer> depth) {
    int least = Integer.MAX_VALUE;
    for (SideView v : tiles.values()) {
      int deep = depth.get(v.side());
      if (deep == 0) {
        continue;
      }
      int from = first(v, depth);
      int to = end(v, depth);
      int bare = 0;
      while (bare < deep - 1 && bareShare(v, bare, from, to) >= BARE_MARGIN) {
        bare++;
      }
      least = Math.min(least, bare);
    }
    boolean wide = least < Integer.MAX_VALUE && least * grid.tileUm() >= LEAST_MARGIN_UM;
    return wide ? least * grid.tilePx() : 0;
  }

  /** Mean probability of bare surface at a depth below a side. */
  private double bareShare(SideView v, int depth, int from, int to) {
    double bare = 0;
    for (int p = from; p < to; p++) {
      bare += probabilities.get(v.cell(depth, p), SurfaceClass.BARE) / (to - from);
    }
    return bare;
  }

  /**
   * Evidence for I/O cells against core at each depth below a side, natural logarithm of the odds,
   * mean over the tiles along the side.
   */
  private double[] evidence(SideView v, Map<DieSide, Integer> depth) {
    int limit = Math.min((int) (DEEPEST_UM / grid.tileUm()), (int) (0.45 * v.depth()));
    int from = first(v, depth);
    int to = end(v, depth);
    double[] evidence = new double[limit];
    for (int d = 0; d < limit; d++) {
      double sum = 0;
      for (int p = from; p < to; p++) {
        int t = v.cell(d, p);
        // Drivers of I/O cells can look like a macro or like a memory's periphery: these speak
        // only a little against a ring.
        double core = core(v, d, p);
        double io = probabilities.get(t, SurfaceClass.IO_CELLS);
        double bare = probabilities.get(t, SurfaceClass.BARE);
        double either = 1 - io - core - bare;
        io += tuning.forRing() * either;
        core += (1 - tuning.forRing()) * either;
        double odds = Math.max(-2, Math.min(2, Math.log((io + FLOOR) / (core + FLOOR))));
        sum += odds * (1 - bare) - tuning.bareCost() * bare;
      }
      evidence[d] = sum / Math.max(1, to - from);
    }
    return evidence;
  }

  /** The first place along a side that no other side's ring reaches. */
  private static int first(SideView v, Map<DieSide, Integer> depth) {
    return Math.min(depth.get(v.side().begin()) + 2, v.length() / 3);
  }

  /** The end of such places, not included. */
  private static int end(SideView v, Map<DieSide, Integer> depth) {
    return v.length() - Math.min(depth.get(v.side().end()) + 2, v.length() / 3);
  }

  /** Evidence for rows or arrays that are wider than an I/O cell. */
  private double core(SideView v, int depth, int place) {
    double sum = 0;
    for (SurfaceClass c : CORE) {
      sum += inLongRun(c, v, depth, place) * probabilities.get(v.cell(depth, place), c);
    }
    return sum;
  }

  /**
   * A band along a whole side, neither rows nor array but devices, that ends at a channel along
   * that side, is the drivers of the I/O cells.
   */
  private int throughDrivers(SideView v, Map<DieSide, Integer> depths) {
    int depth = depths.get(v.side());
    int limit = Math.min(depth + (int) (BAND_UM / grid.tileUm()), (int) (0.45 * v.depth()) - 1);
    int from = first(v, depths);
    int to = end(v, depths);
    double cores = 0;
    for (int d = Math.max(0, depth - 1); depth > 0 && d < limit; d++) {
      double bare = bareShare(v, d, from, to);
      double core = 0;
      for (int p = from; p < to; p++) {
        core += core(v, d, p) / (to - from);
      }
      cores += core;
      if (bare >= tuning.channel()) {
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
  private double inLongRun(SurfaceClass c, SideView v, int depth, int place) {
    int reach = (int) Math.round(tuning.runUm() / 2 / grid.tileUm());
    int from = Math.max(0, place - reach);
    int to = Math.min(v.length() - 1, place + reach);
    double sum = 0;
    for (int p = from; p <= to; p++) {
      sum += probabilities.get(v.cell(depth, p), c);
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
  private Map<DieSide, Integer> settle(Map<DieSide, Integer> depth) {
    if (real.size() < 4) {
      return depth;
    }
    int[] sorted = depth.values().stream().mapToInt(d -> d).sorted().toArray();
    int common = (sorted[1] + sorted[2]) / 2;
    Map<DieSide, Integer> out = new EnumMap<>(depth);
    for (SideView v : tiles.values()) {
      int own = depth.get(v.side());
      if (sorted[1] == 0 || own == 0 || own >= common - 2) {
        continue;
      }
      double[] e = evidence(v, depth);
      double between = 0;
      for (int d = own; d < Math.min(common, e.length); d++) {
        between += e[d] / (common - own);
      }
      if (between > LEAST_AGAINST) {
        out.put(v.side(), common);
      }
    }
    return out;
  }
}
