package org.diesurvey.classification.model;

import java.util.List;
import java.util.Optional;

/**
 * What teaching added to a model. It counts in full for pictures that are like those that were
 * taught, and little for others, so that the model keeps what it knew of them.
 *
 * @param centres mean of the standardised features of each taught photograph
 * @param first the first classifier as taught
 * @param second the second; absent where the model has none
 */
public record TaughtPart(List<float[]> centres, Ensemble first, Optional<Ensemble> second) {
  /** Most photographs that a model file may hold. */
  static final int MOST_PHOTOS = 1000;

  /** Distance up to which a picture counts as like a taught one. */
  private static final double NEAR = 0.05;

  /** Distance of other technologies: of three layouts of three technologies the least is 0.28. */
  private static final double FAR = 0.25;

  /** Share of the way towards the taught weights for pictures that are far. */
  private static final double LEAST = 0.3;

  public TaughtPart {
    centres = List.copyOf(centres);
  }

  /**
   * How far towards the taught weights a picture is judged, 0.3 to 1.
   *
   * @param mean of the picture's standardised features
   */
  public double share(PictureFamiliarity scale, float[] mean) {
    double nearest = FAR;
    for (float[] c : centres) {
      nearest = Math.min(nearest, scale.between(mean, c));
    }
    double far = Math.max(0, (nearest - NEAR) / (FAR - NEAR));
    return 1 - far * (1 - LEAST);
  }
}
