package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.raster.Axis;

/**
 * Tells seams from the layout by three signs: a seam is a step from one column (or row) to the
 * next, sharper than the optics; it goes on over most of the photograph; and it stands out, from
 * its surroundings and from all other places of the photograph.
 *
 * <p>Fields are joined along the rows and columns of the picture. The layout of a die that is
 * turned by a few tenths of a degree is not, so its edges cross from place to place and no place
 * sees a whole edge. In a die that lies upright within {@link #UPRIGHT_DEG} they do: edges of the
 * layout and seams then look alike, and nothing is judged.
 *
 * <p>The thresholds were set on drawn photographs with and without seams (SeamFinderTest has the
 * rates).
 */
final class SeamFinder {
  /** Turned less than this, an edge of the layout stays in one column over hundreds of px. */
  static final double UPRIGHT_DEG = 0.3;

  /** Where |z| begins to count less and less: one block must not decide. */
  private static final double BENT_Z = 15;

  /** A stretch with a step of this many standard errors shows the seam. */
  private static final double SHOWN_Z = 3.5;

  /** Reach of the surroundings of a place, px, and the places next to it that are left out. */
  private static final int REACH_PX = 24;

  private static final int NEXT_PX = 3;

  /** Least excess of the mean |z| over the surroundings. */
  private static final double LEAST_EXCESS = 1.5;

  /** The same times the root of the number of stretches: means of few scatter more. */
  private static final double LEAST_SUM = 7.5;

  /** How far a seam's excess must stand above what other places of the photograph reach. */
  private static final double ABOVE_OTHERS = 2;

  /** Two columns away from a seam this share of the excess may be left, at most. */
  private static final double LEFT_BESIDE = 0.4;

  /** Least share of the length along which the step is shown. */
  private static final double LEAST_LENGTH = 0.6;

  /** Larger steps are no difference of light between fields. */
  private static final double LARGEST_STEP = 0.12;

  /** Neighbouring stretches must agree in the step this far: one gain holds for a whole field. */
  private static final double LEAST_AGREEMENT = 0.45;

  /** Fields narrower than this are not stitched; closer places are one seam. */
  private static final int LEAST_FIELD_PX = 100;

  private final StepField steps;
  private final Axis along;
  private final double[] excess;

  private SeamFinder(StepField steps, Axis along) {
    this.steps = steps;
    this.along = along;
    this.excess = excess(steps);
  }

  /** The seams along an axis, in order of place. */
  static List<Seam> find(StepField steps, Axis along) {
    return new SeamFinder(steps, along).seams();
  }

  private List<Seam> seams() {
    List<Integer> peaks = peaks();
    // As many peaks as there may be seams are left out of what "other places" reach.
    int skipped = steps.places() / 400 + 3;
    double others = peaks.size() > skipped ? excess[peaks.get(skipped)] : 0;
    double least =
        Math.max(
            Math.max(LEAST_EXCESS, LEAST_SUM / Math.sqrt(steps.stretches())),
            ABOVE_OTHERS * others);
    List<Seam> found = new ArrayList<>();
    for (int p : peaks) {
      if (excess[p] < least) {
        break;
      }
      boolean sharp =
          excess[p - 2] < LEFT_BESIDE * excess[p] && excess[p + 2] < LEFT_BESIDE * excess[p];
      double length = length(p);
      double step = step(p);
      boolean apart = found.stream().allMatch(s -> Math.abs(s.placePx() - p) >= LEAST_FIELD_PX);
      if (sharp
          && apart
          && length >= LEAST_LENGTH
          && step <= LARGEST_STEP
          && agreement(p) >= LEAST_AGREEMENT) {
        found.add(new Seam(along, p, step, length));
      }
    }
    found.sort(Comparator.comparingInt(Seam::placePx));
    return found;
  }

  /** Places of largest excess within 8 px, from the strongest on. */
  private List<Integer> peaks() {
    List<Integer> peaks = new ArrayList<>();
    for (int p = 6; p < excess.length - 6; p++) {
      boolean top = excess[p] > 0;
      for (int d = -8; d <= 8 && top; d++) {
        int q = p + d;
        top = q < 0 || q >= excess.length || excess[q] < excess[p] || d >= 0;
      }
      for (int d = 1; d <= 8 && top; d++) {
        top = p + d >= excess.length || excess[p + d] <= excess[p];
      }
      if (top) {
        peaks.add(p);
      }
    }
    peaks.sort((a, b) -> Double.compare(excess[b], excess[a]));
    return peaks;
  }

  private double length(int place) {
    int shown = 0;
    for (int s = 0; s < steps.stretches(); s++) {
      shown += Math.abs(steps.jointZ(s, place)) >= SHOWN_Z ? 1 : 0;
    }
    return shown / (double) steps.stretches();
  }

  /** Common part of the steps of neighbouring stretches over the larger of both, 0 to 1. */
  private double agreement(int place) {
    double common = 0;
    double all = 0;
    for (int s = 1; s < steps.stretches(); s++) {
      double a = steps.shift(s - 1, place);
      double b = steps.shift(s, place);
      all += Math.max(Math.abs(a), Math.abs(b));
      common += a * b > 0 ? Math.min(Math.abs(a), Math.abs(b)) : 0;
    }
    return all == 0 ? 1 : common / all;
  }

  private double step(int place) {
    double[] shifts = new double[steps.stretches()];
    for (int s = 0; s < shifts.length; s++) {
      shifts[s] = Math.abs(steps.shift(s, place));
    }
    Arrays.sort(shifts);
    return shifts[shifts.length / 2];
  }

  private static double[] excess(StepField steps) {
    int n = steps.places();
    double[] mean = new double[n];
    for (int p = 0; p < n; p++) {
      double sum = 0;
      for (int s = 0; s < steps.stretches(); s++) {
        double z = Math.abs(steps.jointZ(s, p));
        sum += z / (1 + z / BENT_Z);
      }
      mean[p] = sum / steps.stretches();
    }
    double[] excess = new double[n];
    double[] around = new double[2 * REACH_PX];
    for (int p = 2; p < n - 1; p++) {
      int k = 0;
      for (int d = -REACH_PX; d <= REACH_PX; d++) {
        if (Math.abs(d) > NEXT_PX && p + d >= 2 && p + d < n - 1) {
          around[k++] = mean[p + d];
        }
      }
      if (k > REACH_PX / 2) {
        Arrays.sort(around, 0, k);
        excess[p] = Math.max(0, mean[p] - around[(int) (0.9 * (k - 1))]);
      }
    }
    return excess;
  }
}
