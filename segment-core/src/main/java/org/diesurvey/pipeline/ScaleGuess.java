package org.diesurvey.pipeline;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileClassifier;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.survey.ScaleRecord.InferredRange;

/**
 * A guess at the pixel pitch where none is given: the layout is looked at as if it had several
 * pitches, and the one under which it looks most like the dies of the training data is taken. Good
 * for choosing tile sizes, never for areas.
 */
final class ScaleGuess {
  private static final double[] CANDIDATES_UM = {0.15, 0.25, 0.4, 0.65, 1.05, 1.7};

  /** Half the step between candidates, as a factor. */
  private static final double HALF_STEP = 1.3;

  /** Side of the sample in the middle of the layout, px. */
  private static final double SAMPLE_PX = 1400;

  private ScaleGuess() {}

  static InferredRange of(
      PixelSource source, PreparedDie.Frame frame, TileClassifier classifier, double tileUm) {
    PreparedDie.Frame sample = frame.middle(SAMPLE_PX);
    double best = Double.NEGATIVE_INFINITY;
    double at = CANDIDATES_UM[2];
    for (double candidate : CANDIDATES_UM) {
      TiledDie tiled = TiledDie.of(source, sample, candidate, tileUm);
      double score =
          familiarity(classifier.classifyAlone(FeatureTable.extract(tiled.die(), tiled.grid())));
      if (score > best) {
        best = score;
        at = candidate;
      }
    }
    return new InferredRange(
        at / HALF_STEP, at * HALF_STEP, "texture scales compared with those of drawn dies");
  }

  private static double familiarity(TileProbabilities p) {
    double sum = 0;
    int n = p.grid().count();
    for (int t = 0; t < n; t++) {
      double top = 0;
      for (SurfaceClass c : SurfaceClass.values()) {
        top = Math.max(top, p.get(t, c));
      }
      sum += top - 0.5 * Math.max(0, p.strangeness(t) - 0.5);
    }
    return sum / n;
  }
}
