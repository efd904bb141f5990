package org.diesurvey.comparison.training;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.comparison.ComparisonScores;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.changes.ChangeKindClassifier;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.registration.ScaledDie;
import org.diesurvey.comparison.tiles.TileChangeClassifier;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;

/**
 * Takes tiles from drawn revisions whose changes are known and trains {@link TileChangeClassifier}
 * on them. Immutable; pairs may be given at the same time.
 */
public final class ChangeTraining {
  /** Most tiles of one pair, changed and unchanged each. */
  private static final int MOST_TILES = 1500;

  /** Other content in the same place is rare in pairs and small, so that it weighs more. */
  private static final float CONTENT_WEIGHT = 5;

  /** Tiles around a change that are left out: windows reach so far. */
  private static final double MARGIN_TILES = 2;

  private final LayoutComparer comparer;

  /**
   * @param classifier judges the tiles of surveys that were read from files
   */
  public ChangeTraining(TileClassifier classifier) {
    this.comparer =
        new LayoutComparer(
            "", 1, classifier, TileChangeClassifier.blank(), ChangeKindClassifier.blank());
  }

  /**
   * Tiles of a pair of one die that did not grow.
   *
   * @param truth its changes, in the first die frame, um, y up
   * @param seed chooses among the tiles
   */
  public TrainingRows rows(
      ComparisonSide a, ComparisonSide b, List<ComparisonScores.TrueChange> truth, long seed) {
    OfBoth<ComparisonSide> sides = new OfBoth<>(a, b);
    OfBoth<ScaledDie> dies = sides.map(ScaledDie::of);
    Registrar.Found found = new Registrar(dies.first(), dies.second()).find();
    return LayoutComparer.common(found)
        ? rows(comparer.judged(sides, dies, found), truth, seed)
        : new TrainingRows();
  }

  private static TrainingRows rows(
      LayoutComparer.Judged judged, List<ComparisonScores.TrueChange> truth, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[][] label = labels(judged, truth);
    TrainingRows out = new TrainingRows();
    for (int changed = 0; changed < 2; changed++) {
      List<Integer> of = new ArrayList<>();
      for (int i = 0; i < label.length; i++) {
        if (label[i] != null && label[i][0] == changed) {
          of.add(i);
        }
      }
      for (int k = 0; k < MOST_TILES && !of.isEmpty(); k++) {
        int at = random.nextInt(of.size());
        int i = of.get(at);
        of.set(at, of.get(of.size() - 1));
        of.remove(of.size() - 1);
        out.add(judged.agreement.evidence.rows[i], changed, label[i][1]);
      }
    }
    return out;
  }

  /** Changed or not and weight of each tile; null where it is left out. */
  private static float[][] labels(
      LayoutComparer.Judged judged, List<ComparisonScores.TrueChange> truth) {
    TileComparison agreement = judged.agreement;
    float[][] out = new float[agreement.state.length][];
    int columns = agreement.tiles.columns;
    double um = agreement.tileUm;
    for (int i = 0; i < out.length; i++) {
      double x = (i % columns + 0.5) * um;
      double y = judged.frames.heightA() - (i / columns + 0.5) * um;
      boolean near = false;
      float[] label = null;
      for (ComparisonScores.TrueChange c : truth) {
        int in = 0;
        boolean within = false;
        for (List<Double> box : c.boxes()) {
          near |= inside(box, x, y, MARGIN_TILES * um);
          in += inside(box, x, y, um) ? 1 : 0;
          within |= inside(box, x, y, -um);
        }
        // What a resized block keeps may look the same.
        if (within && !(c.kind() == ChangeKind.RESIZED && in > 1)) {
          label = new float[] {1, c.kind() == ChangeKind.TEXTURE ? CONTENT_WEIGHT : 1};
        }
      }
      if (agreement.judged(i) && !TileClasses.inRing(judged.classes, i)) {
        out[i] = near ? label : new float[] {0, 1};
      }
    }
    return out;
  }

  private static boolean inside(List<Double> box, double x, double y, double wider) {
    return x > box.get(0) - wider
        && x < box.get(2) + wider
        && y > box.get(1) - wider
        && y < box.get(3) + wider;
  }

  /** The file of the network that the rows of all pairs, in this order, make. */
  public static byte[] network(List<TrainingRows> pairs) {
    TrainingRows all = TrainingRows.together(pairs);
    try {
      return TileChangeClassifier.train(all.rows(), all.labels(), all.weights()).write();
    } catch (IOException e) {
      throw new UncheckedIOException("the network cannot be written", e);
    }
  }
}
