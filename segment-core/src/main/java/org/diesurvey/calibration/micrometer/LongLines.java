package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeSet;
import org.diesurvey.calibration.micrometer.Lattice.Mark;

/**
 * The longer lines of a scale, a check of the count that does not rest on distances: micrometers
 * usually have a longer line each 5th and a still longer one each 10th division (common practice,
 * no source).
 */
final class LongLines {
  /** A line this much longer than most is a longer one. */
  private static final double LONGER = 1.18;

  /** Share of the distances of longer lines that must be alike. */
  private static final double PREVAILS = 0.7;

  private final TreeSet<Integer> indices = new TreeSet<>();
  private final OptionalInt every;
  private final boolean twoKinds;

  private LongLines(Map<Integer, Double> lengths, double typical) {
    List<Double> longer = new ArrayList<>();
    lengths.forEach(
        (i, length) -> {
          if (length > LONGER * typical) {
            indices.add(i);
            longer.add(length);
          }
        });
    every = commonStep(indices);
    double least = longer.stream().mapToDouble(d -> d).min().orElse(0);
    double most = longer.stream().mapToDouble(d -> d).max().orElse(0);
    twoKinds = most > LONGER * least;
  }

  static LongLines of(Candidate scale) {
    UprightView view = scale.view();
    Map<Integer, Double> lengths = new HashMap<>();
    for (Mark m : scale.lattice().marks()) {
      Stroke s = m.stroke();
      // A line that runs into the rim of the photo may be longer than it looks.
      double reach = 3 * LineSegmentDetector.STRIP_PX;
      boolean whole =
          view.inside(s.at(s.top()), s.top() - reach)
              && view.inside(s.at(s.bottom()), s.bottom() + reach);
      if (whole) {
        lengths.put(m.index(), s.length());
      }
    }
    double typical = LatticeSearch.median(lengths.values().stream().mapToDouble(d -> d).toArray());
    return new LongLines(lengths, typical);
  }

  boolean isLong(int index) {
    return indices.contains(index);
  }

  /** The commonest distance of neighbouring longer lines, if it occurs twice or more. */
  OptionalInt every() {
    return every;
  }

  private static OptionalInt commonStep(TreeSet<Integer> indices) {
    Map<Integer, Integer> counts = new HashMap<>();
    Integer before = null;
    for (int i : indices) {
      if (before != null) {
        counts.merge(i - before, 1, Integer::sum);
      }
      before = i;
    }
    int best = 0;
    int total = 0;
    for (Map.Entry<Integer, Integer> e : counts.entrySet()) {
      total += e.getValue();
      if (e.getValue() >= 2 && e.getValue() > counts.getOrDefault(best, 1)) {
        best = e.getKey();
      }
    }
    // Lengths are noisy where lines are faint: only a distance that prevails says something.
    if (best == 1 || counts.getOrDefault(best, 0) < PREVAILS * total) {
      return OptionalInt.empty();
    }
    return best > 0 ? OptionalInt.of(best) : OptionalInt.empty();
  }

  /**
   * Longer lines of one kind at each 5th line found may as well be those of each 10th division,
   * with every second line lost; only the user can tell.
   */
  void check(ScaleFacts facts, Refusal refusal) {
    if (every.isEmpty()) {
      return;
    }
    int seen = every.getAsInt();
    if (facts.longerEvery().isPresent()) {
      if (facts.longerEvery().getAsInt() != seen) {
        throw refusal.of(
            "the longer lines come at every %d lines found, not at every %d as stated",
            "look whether lines are missing, and state --long-lines again",
            seen,
            facts.longerEvery().getAsInt());
      }
      return;
    }
    if (seen == 5 && !twoKinds && indices.size() >= 3) {
      throw refusal.of(
          "every 5th line found is longer and none is longer still, so these may be the lines of"
              + " each 10th division with every second line lost",
          "if the engraving does have one kind of longer line, at each 5th division, say"
              + " --long-lines 5; else photograph it again");
    }
    if (seen != 5 && seen != 10 && indices.size() >= 4) {
      throw refusal.of(
          "the longer lines come at every %d lines found, where scales have them at every 5th or"
              + " 10th, so lines may be missing or doubled",
          "if the engraving is like that, say --long-lines " + seen + "; else photograph it again",
          seen);
    }
  }
}
