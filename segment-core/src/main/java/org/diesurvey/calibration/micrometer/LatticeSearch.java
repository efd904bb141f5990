package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.micrometer.Lattice.Mark;

/** Looks for the most regular row of strokes. */
final class LatticeSearch {
  /** A stroke may stand off its step by this share of a step. */
  private static final double OFF_STEP = 0.17;

  /** Lines missing in a row that the search steps over. */
  private static final int LONGEST_GAP = 7;

  /** Depth of a division line over the median of all strokes. */
  private static final double FAINTEST = 0.35;

  private static final double STRONGEST = 3;

  private LatticeSearch() {}

  /** Strokes with the depth of most of the strokes. */
  static List<Stroke> alike(List<Stroke> strokes) {
    double depth = usualDepth(strokes);
    return strokes.stream()
        .filter(s -> s.depth() >= FAINTEST * depth && s.depth() <= STRONGEST * depth)
        .toList();
  }

  /** Median depth, each stroke weighted by its depth and the square of its length. */
  static double usualDepth(List<Stroke> strokes) {
    List<Stroke> sorted = new ArrayList<>(strokes);
    sorted.sort(Comparator.comparingDouble(Stroke::depth));
    double half = 0.5 * sorted.stream().mapToDouble(LatticeSearch::mass).sum();
    for (Stroke s : sorted) {
      half -= mass(s);
      if (half <= 0) {
        return s.depth();
      }
    }
    return 0;
  }

  private static double mass(Stroke s) {
    return s.length() * s.length() * s.depth();
  }

  /** The best row of strokes; empty where fewer than two strokes stand beside one another. */
  static Optional<Lattice> best(List<Stroke> all, int heightPx) {
    List<Stroke> strokes = alike(all);
    if (strokes.size() < 2) {
      return Optional.empty();
    }
    Lattice best = null;
    for (double v : heights(strokes, heightPx)) {
      Lattice here = at(v, strokes);
      if (here != null && (best == null || here.merit() > best.merit())) {
        best = here;
      }
    }
    return Optional.ofNullable(best);
  }

  /** Heights worth a look: the middles of the plateaus where most strokes stand side by side. */
  private static List<Double> heights(List<Stroke> strokes, int heightPx) {
    int[] count = new int[heightPx / LineSegmentDetector.STRIP_PX + 2];
    for (Stroke s : strokes) {
      int last = Math.min(count.length - 1, (int) (s.bottom() / LineSegmentDetector.STRIP_PX));
      for (int i = (int) (s.top() / LineSegmentDetector.STRIP_PX); i < last; i++) {
        count[i]++;
      }
    }
    List<Double> heights = new ArrayList<>();
    for (int round = 0; round < 3; round++) {
      int top = 0;
      for (int i = 1; i < count.length; i++) {
        top = count[i] > count[top] ? i : top;
      }
      if (count[top] < 2) {
        break;
      }
      int level = (int) Math.ceil(0.8 * count[top]);
      int from = top;
      int to = top;
      while (from > 0 && count[from - 1] >= level) {
        from--;
      }
      while (to < count.length - 1 && count[to + 1] >= level) {
        to++;
      }
      heights.add((from + to + 1) * 0.5 * LineSegmentDetector.STRIP_PX);
      java.util.Arrays.fill(count, from, to + 1, 0);
    }
    return heights;
  }

  private static Lattice at(double v, List<Stroke> strokes) {
    List<Stroke> row = new ArrayList<>();
    for (Stroke s : strokes) {
      if (s.top() <= v && s.bottom() >= v) {
        row.add(s);
      }
    }
    double length = median(row.stream().mapToDouble(Stroke::length).toArray());
    double from = v - 0.25 * length;
    double to = v + 0.25 * length;
    row =
        new ArrayList<>(
            strokes.stream().filter(s -> s.overlap(from, to) >= 0.5 * (to - from)).toList());
    row.sort(Comparator.comparingDouble(s -> s.at(v)));
    double[] u = row.stream().mapToDouble(s -> s.at(v)).toArray();
    if (u.length < 2) {
      return null;
    }
    Lattice best = null;
    List<Double> tried = new ArrayList<>();
    for (int i = 1; i < u.length; i++) {
      double step = u[i] - u[i - 1];
      boolean known = tried.stream().anyMatch(t -> Math.abs(t - step) < 0.02 * t);
      if (step < 2 || known) {
        continue;
      }
      tried.add(step);
      for (int seed = 0; seed < u.length; seed += Math.max(1, u.length / 12)) {
        Lattice found = walk(row, u, seed, step, v);
        if (best == null || found.merit() > best.merit()) {
          best = found;
        }
      }
      if (tried.size() > 40) {
        break;
      }
    }
    return best;
  }

  /** Goes from stroke to stroke both ways and lets the step follow slow changes. */
  private static Lattice walk(List<Stroke> row, double[] u, int seed, double step, double v) {
    Integer[] index = new Integer[u.length];
    index[seed] = 0;
    follow(u, index, seed, step, 1);
    follow(u, index, seed, step, -1);
    int first = Integer.MAX_VALUE;
    int firstAt = -1;
    int lastAt = -1;
    for (int i = 0; i < u.length; i++) {
      if (index[i] != null) {
        first = Math.min(first, index[i]);
        firstAt = firstAt < 0 ? i : firstAt;
        lastAt = i;
      }
    }
    List<Mark> marks = new ArrayList<>();
    List<Stroke> strays = new ArrayList<>();
    for (int i = firstAt; i <= lastAt; i++) {
      if (index[i] != null) {
        marks.add(new Mark(index[i] - first, row.get(i)));
      } else {
        strays.add(row.get(i));
      }
    }
    int places = marks.get(marks.size() - 1).index();
    double mean = places == 0 ? step : (u[lastAt] - u[firstAt]) / places;
    return new Lattice(marks, mean, v, strays);
  }

  private static void follow(double[] u, Integer[] index, int seed, double step, int way) {
    int at = seed;
    double current = step;
    double tolerance = OFF_STEP * step;
    int next = seed + way;
    while (next >= 0 && next < u.length) {
      int best = -1;
      int bestSteps = 0;
      for (int m = 1; m <= LONGEST_GAP && best < 0; m++) {
        double aim = u[at] + way * m * current;
        for (int i = next; i >= 0 && i < u.length && way * (u[i] - aim) <= tolerance; i += way) {
          double d = Math.abs(u[i] - aim);
          if (d <= tolerance && (best < 0 || d < Math.abs(u[best] - aim))) {
            best = i;
            bestSteps = m;
          }
        }
      }
      if (best < 0) {
        return;
      }
      index[best] = index[at] + way * bestSteps;
      // A quarter of each new step: follows distortion, averages out single faults.
      current += 0.25 * (Math.abs(u[best] - u[at]) / bestSteps - current);
      at = best;
      next = best + way;
    }
  }

  static double median(double[] values) {
    double[] v = values.clone();
    java.util.Arrays.sort(v);
    return v.length == 0 ? 0 : 0.5 * (v[(v.length - 1) / 2] + v[v.length / 2]);
  }
}
