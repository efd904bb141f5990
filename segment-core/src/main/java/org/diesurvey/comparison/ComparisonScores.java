package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.scoring.ReliabilityTable;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** Comparisons against true changes, pair by pair. */
public final class ComparisonScores {
  /** A change this close to a true one is about the same place, um. */
  private static final double NEAR_UM = 24;

  private int pairs;
  private int refused;
  private int trueChanges;
  private int found;
  private int rightKind;
  private int falseChanges;
  private int pairsWithout;
  private int saidUnchanged;
  private int strangers;
  private int strangersRefused;
  private final List<Double> moveErrorsUm = new ArrayList<>();
  private final List<ReliabilityTable.Answer> answers = new ArrayList<>();

  /**
   * A true change, in the first die frame, um, y up.
   *
   * @param kind what happened
   * @param boxes left, lower, right, upper of the places concerned
   * @param moved right and up, of a moved block
   */
  public record TrueChange(ChangeKind kind, List<List<Double>> boxes, Optional<Point> moved) {
    /** Copies the lists. */
    public TrueChange {
      boxes = boxes.stream().map(List::copyOf).toList();
    }
  }

  /** Two chips that have nothing in common. */
  public void stranger(boolean wasRefused) {
    strangers++;
    strangersRefused += wasRefused ? 1 : 0;
  }

  /** Two revisions of which the comparison was refused, and so nothing was found. */
  public void refusal(List<TrueChange> truth) {
    pairs++;
    refused++;
    trueChanges += truth.size();
    pairsWithout += truth.isEmpty() ? 1 : 0;
  }

  /** Two revisions; {@code counted} is false for a grown die, which is no pair without a change. */
  public void pair(Comparison c, List<TrueChange> truth, boolean counted) {
    pairs++;
    trueChanges += truth.size();
    if (truth.isEmpty() && counted) {
      pairsWithout++;
      saidUnchanged += c.changes().isEmpty() ? 1 : 0;
    }
    boolean[] used = new boolean[truth.size()];
    boolean[] right = new boolean[truth.size()];
    for (Change x : c.changes()) {
      boolean any = false;
      boolean anyRight = false;
      for (int i = 0; i < truth.size(); i++) {
        TrueChange t = truth.get(i);
        if (touches(x, t)) {
          any = true;
          used[i] = true;
          right[i] |= x.kind() == t.kind();
          anyRight |= x.kind() == t.kind();
          if (x.kind() == ChangeKind.MOVED
              && t.kind() == ChangeKind.MOVED
              && x.moved().shift().isPresent()) {
            Point m = t.moved().orElseThrow();
            moveErrorsUm.add(
                Math.hypot(
                    x.moved().shift().get().right().value() - m.x(),
                    x.moved().shift().get().up().value() - m.y()));
          }
        }
      }
      falseChanges += any ? 0 : 1;
      answers.add(new ReliabilityTable.Answer(x.confidence(), anyRight, 1));
    }
    for (int i = 0; i < used.length; i++) {
      found += used[i] ? 1 : 0;
      rightKind += right[i] ? 1 : 0;
    }
  }

  private static boolean touches(Change x, TrueChange t) {
    return touches(
        Stream.concat(x.a().outlines().stream(), x.b().outlines().stream())
            .map(ComparisonScores::box)
            .toList(),
        t);
  }

  /**
   * Whether one of some boxes is about the place of a true change.
   *
   * @param found left, lower, right, upper of each, um
   */
  public static boolean touches(List<double[]> found, TrueChange t) {
    for (double[] b : found) {
      for (List<Double> r : t.boxes()) {
        double cx = (b[0] + b[2]) / 2;
        double cy = (b[1] + b[3]) / 2;
        boolean inside =
            cx > r.get(0) - NEAR_UM
                && cx < r.get(2) + NEAR_UM
                && cy > r.get(1) - NEAR_UM
                && cy < r.get(3) + NEAR_UM;
        double w = Math.min(b[2], r.get(2)) - Math.max(b[0], r.get(0));
        double h = Math.min(b[3], r.get(3)) - Math.max(b[1], r.get(1));
        double area = (r.get(2) - r.get(0)) * (r.get(3) - r.get(1));
        if (inside || w > 0 && h > 0 && w * h > 0.5 * area) {
          return true;
        }
      }
    }
    return false;
  }

  private static double[] box(Outline o) {
    double[] b = {1e18, 1e18, -1e18, -1e18};
    for (Point p : o.shell()) {
      b[0] = Math.min(b[0], p.x());
      b[1] = Math.min(b[1], p.y());
      b[2] = Math.max(b[2], p.x());
      b[3] = Math.max(b[3], p.y());
    }
    return b;
  }

  /** What changes were told with, and how often there was a change of that kind. */
  ReliabilityTable confidence() {
    return ReliabilityTable.of(answers, ReliabilityTable.DEFAULT_BINS);
  }

  private double mean(ToDoubleFunction<ReliabilityTable.Answer> of) {
    return answers.stream().mapToDouble(of).average().orElse(0);
  }

  /** The figures for people. */
  public String text() {
    double[] moves = moveErrorsUm.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    String move =
        moves.length == 0
            ? "none"
            : String.format(
                Locale.ROOT,
                "%d, median %.2f um, largest %.2f um",
                moves.length,
                moves[moves.length / 2],
                moves[moves.length - 1]);
    return String.format(
        Locale.ROOT,
        "pairs %d, refused %d%n"
            + "true changes %d: found %d, of the right kind %d (%.1f %%)%n"
            + "false changes %d, %.2f a pair%n"
            + "told changes %d: mean confidence %.3f, there and of that kind %.3f, expected"
            + " calibration error %.3f%n"
            + "moves measured: %s%n"
            + "pairs without a change %d, said unchanged %d%n"
            + "different chips %d, refused %d",
        pairs,
        refused,
        trueChanges,
        found,
        rightKind,
        trueChanges == 0 ? 0.0 : 100.0 * rightKind / trueChanges,
        falseChanges,
        pairs == 0 ? 0.0 : falseChanges / (double) pairs,
        answers.size(),
        mean(ReliabilityTable.Answer::confidence),
        mean(a -> a.right() ? 1 : 0),
        confidence().expectedError(),
        move,
        pairsWithout,
        saidUnchanged,
        strangers,
        strangersRefused);
  }
}
