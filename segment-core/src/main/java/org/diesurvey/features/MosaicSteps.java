package org.diesurvey.features;

import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * Tells a period that is a stitched photograph's own from one of the layout. The light falls off in
 * every field alike, so a row of fields makes a saw: one sharp step at each seam, all in one
 * direction, on straight lines across the whole picture, and between them a slow return. A lattice
 * of the layout has edges in both directions within its period, and ends where its block ends.
 */
final class MosaicSteps {
  /** Shorter periods are no fields, px of the upright raster. */
  private static final double LEAST_PERIOD_PX = 40;

  /** Coarser phases cannot tell a step from a ramp, cells. */
  private static final int LEAST_PHASES = 12;

  /** Relative differences beyond this are an edge of the layout, whatever the light. */
  private static final double CLAMP = 0.15;

  /** Least step, over the grey beside it. */
  private static final double LEAST_STEP = 0.008;

  /** Most that any other place of the period may step, in either direction, over the step. */
  private static final double QUIET = 0.45;

  /** Least share of a seam's length along which the step has its direction, in the region. */
  private static final double LEAST_LENGTH = 0.7;

  /** Least mean step along the same lines outside the region, over that inside. */
  private static final double LEAST_BEYOND = 0.4;

  /** Fewer places along the seams outside the region say nothing. */
  private static final int LEAST_PLACES = 40;

  private final FineMap fine;
  private final boolean alongX;
  private final double period;
  private final int phases;

  private MosaicSteps(FineMap fine, boolean alongX, double periodCells) {
    this.fine = fine;
    this.alongX = alongX;
    this.period = periodCells;
    this.phases = (int) Math.round(periodCells);
  }

  /**
   * Whether a period of a region is that of the mosaic.
   *
   * @param tiles of the region
   */
  static boolean own(FineMap fine, TileGrid grid, int[] tiles, DominantPeriods.Found found) {
    double cellPx = grid.tilePx() / FineMap.PER_TILE;
    if (found.lengthPx() < LEAST_PERIOD_PX || found.lengthPx() < LEAST_PHASES * cellPx) {
      return false;
    }
    boolean[] region = new boolean[fine.rows() * fine.columns()];
    for (int t : tiles) {
      int top = t / grid.columns() * FineMap.PER_TILE;
      int left = t % grid.columns() * FineMap.PER_TILE;
      for (int i = 0; i < FineMap.PER_TILE * FineMap.PER_TILE; i++) {
        int row = top + i / FineMap.PER_TILE;
        region[row * fine.columns() + left + i % FineMap.PER_TILE] = true;
      }
    }
    // The period is known to about a pixel; over many fields that adds up.
    for (int k = -8; k <= 8; k++) {
      double cells = (found.lengthPx() + k * 0.125 * Math.max(1, found.uncertaintyPx())) / cellPx;
      MosaicSteps steps = new MosaicSteps(fine, found.alongX(), cells);
      if (steps.saw(region)) {
        return true;
      }
    }
    return false;
  }

  private boolean saw(boolean[] region) {
    double[] profile = profile(region);
    int at = 0;
    for (int p = 1; p < phases; p++) {
      if (Math.abs(wide(profile, p)) > Math.abs(wide(profile, at))) {
        at = p;
      }
    }
    double step = wide(profile, at);
    if (Math.abs(step) < LEAST_STEP) {
      return false;
    }
    for (int p = 0; p < phases; p++) {
      int apart = Math.min(Math.floorMod(p - at, phases), Math.floorMod(at - p, phases));
      if (apart > 3 && Math.abs(wide(profile, p)) > QUIET * Math.abs(step)) {
        return false;
      }
    }
    Seams inside = new Seams();
    Seams beyond = new Seams();
    seams(region, at, step, inside, beyond);
    return inside.like >= LEAST_LENGTH * inside.seen
        && (beyond.seen < LEAST_PLACES || beyond.mean() >= LEAST_BEYOND * inside.mean());
  }

  /** Places along the seams, those that step the seams' way, and the sum of their steps. */
  private static final class Seams {
    private int seen;
    private int like;
    private double sum;

    void add(double step) {
      seen++;
      like += step > 0 ? 1 : 0;
      sum += Math.max(-CLAMP, Math.min(CLAMP, step));
    }

    double mean() {
      return sum / Math.max(1, seen);
    }
  }

  /** Mean relative difference of neighbouring cells for every phase of the period. */
  private double[] profile(boolean[] inside) {
    double[] sum = new double[phases];
    int[] count = new int[phases];
    int step = alongX ? 1 : fine.columns();
    for (int i = step; i < inside.length; i++) {
      if (inside[i] && inside[i - step] && place(i) > 0) {
        sum[phase(place(i))] += Math.max(-CLAMP, Math.min(CLAMP, difference(i, i - step)));
        count[phase(place(i))]++;
      }
    }
    for (int p = 0; p < phases; p++) {
      sum[p] /= Math.max(1, count[p]);
    }
    return sum;
  }

  private void seams(boolean[] region, int at, double direction, Seams inside, Seams beyond) {
    int step = alongX ? 1 : fine.columns();
    for (int i = 2 * step; i + step < region.length; i++) {
      int place = place(i);
      boolean fits = place >= 2 && place + 1 < (alongX ? fine.columns() : fine.rows());
      if (fits && phase(place) == at && phase(place - 1) != at) {
        double d = difference(i + step, i - 2 * step) * Math.signum(direction);
        if (region[i + step] && region[i - 2 * step]) {
          inside.add(d);
        } else if (!region[i + step] && !region[i - 2 * step]) {
          beyond.add(d);
        }
      }
    }
  }

  private int place(int cell) {
    return alongX ? cell % fine.columns() : cell / fine.columns();
  }

  private int phase(int place) {
    return (int) Math.min(phases - 1.0, place % period / period * phases);
  }

  /** A step that the stitching blurred lies in more than one phase. */
  private double wide(double[] profile, int p) {
    return profile[(p + phases - 1) % phases] + profile[p] + profile[(p + 1) % phases];
  }

  private double difference(int to, int from) {
    int c = fine.columns();
    double a = fine.grey(to / c, to % c);
    double b = fine.grey(from / c, from % c);
    return 2 * (a - b) / (a + b + 1e-3);
  }
}
