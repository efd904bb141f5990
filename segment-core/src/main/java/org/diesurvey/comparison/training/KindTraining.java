package org.diesurvey.comparison.training;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.comparison.ComparisonScores;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.changes.ChangeFinder;
import org.diesurvey.comparison.changes.ChangeKindClassifier;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.registration.ScaledDie;
import org.diesurvey.comparison.tiles.TileChangeClassifier;

/**
 * Takes the places that differ in drawn revisions whose changes are known and trains {@link
 * ChangeKindClassifier} on them. Immutable; pairs may be given at the same time.
 */
public final class KindTraining {
  /** A piece of a moved block that lies so much more at one of its places belongs to that one. */
  private static final double AT_ONE_PLACE = 2;

  private final LayoutComparer comparer;

  /**
   * @param classifier judges the tiles of surveys that were read from files
   * @param changes file of the network that tells changed tiles
   */
  public KindTraining(TileClassifier classifier, byte[] changes) {
    try {
      this.comparer =
          new LayoutComparer(
              "", 1, classifier, TileChangeClassifier.read(changes), ChangeKindClassifier.blank());
    } catch (IOException e) {
      throw new UncheckedIOException("the network of changes cannot be read", e);
    }
  }

  /**
   * Places of a pair of one die that did not grow.
   *
   * @param truth its changes, in the first die frame, um, y up
   */
  public TrainingRows rows(ComparisonSide a, ComparisonSide b, List<TrueChange> truth) {
    OfBoth<ComparisonSide> sides = new OfBoth<>(a, b);
    OfBoth<ScaledDie> dies = sides.map(ScaledDie::of);
    Registrar.Found found = new Registrar(dies.first(), dies.second()).find();
    TrainingRows out = new TrainingRows();
    if (!LayoutComparer.common(found)) {
      return out;
    }
    LayoutComparer.Judged judged = comparer.judged(sides, dies, found);
    ChangeFinder finder =
        new ChangeFinder(judged.agreement, judged.classes, ChangeKindClassifier.blank());
    for (ChangeFinder.ChangeCandidate p : finder.proposals(found.pitchUm(), false)) {
      int label = label(boxes(p, judged), p.kind(), truth);
      if (label >= 0) {
        out.add(finder.figures(p), label, 1);
      }
    }
    return out;
  }

  /** Left, lower, right, upper of a place in both dies, um. */
  private static List<double[]> boxes(
      ChangeFinder.ChangeCandidate p, LayoutComparer.Judged judged) {
    double um = judged.agreement.tileUm;
    double h = judged.frames.heightA();
    return Stream.of(p.inA(), p.inB())
        .filter(Objects::nonNull)
        .map(
            t ->
                new double[] {t.left() * um, h - t.bottom() * um, t.right() * um, h - t.top() * um})
        .toList();
  }

  /**
   * Ordinal of the true kind, {@link ChangeKindClassifier#NOTHING}, or -1 where it cannot be said.
   *
   * @param boxes left, lower, right, upper of a place, um
   * @param proposed kind
   */
  static int label(List<double[]> boxes, ChangeKind proposed, List<TrueChange> truth) {
    TrueChange best = null;
    for (TrueChange t : truth) {
      boolean same = t.kind() == proposed;
      boolean bestSame = best != null && best.kind() == proposed;
      if (ComparisonScores.touches(boxes, t)
          && (best == null
              || same && !bestSame
              || same == bestSame && common(boxes, t.boxes()) > common(boxes, best.boxes()))) {
        best = t;
      }
    }
    if (best == null) {
      return ChangeKindClassifier.NOTHING;
    }
    if (best.kind() != ChangeKind.MOVED || proposed == ChangeKind.MOVED) {
      return best.kind().ordinal();
    }
    double before = common(boxes, best.boxes().subList(0, 1));
    double after = common(boxes, best.boxes().subList(1, 2));
    return before > AT_ONE_PLACE * after
        ? ChangeKind.GONE.ordinal()
        : after > AT_ONE_PLACE * before ? ChangeKind.NEW.ordinal() : -1;
  }

  /** Largest area that two boxes have in common, um2. */
  private static double common(List<double[]> boxes, List<List<Double>> others) {
    double most = 0;
    for (double[] b : boxes) {
      for (List<Double> r : others) {
        double w = Math.min(b[2], r.get(2)) - Math.max(b[0], r.get(0));
        double h = Math.min(b[3], r.get(3)) - Math.max(b[1], r.get(1));
        most = Math.max(most, Math.max(0, w) * Math.max(0, h));
      }
    }
    return most;
  }

  /** The file of the network that the rows of all pairs, in this order, make. */
  public static byte[] network(List<TrainingRows> pairs) {
    TrainingRows all = TrainingRows.together(pairs);
    try {
      return ChangeKindClassifier.train(all.rows(), all.labels()).write();
    } catch (IOException e) {
      throw new UncheckedIOException("the network cannot be written", e);
    }
  }
}
