package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.features.RelativeContrast;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.SevereNotice;

/**
 * Whether the picture as a whole is what the model knows: the diffusion or polysilicon layer of a
 * die. If not, it is said, and no region keeps a high confidence.
 *
 * @param notices what is doubtful; none for an ordinary picture
 */
record UnfamiliarityCheck(List<Notice> notices) {
  /** Highest confidence of a region of a picture that is in doubt. */
  static final double MOST_CONFIDENCE = 0.3;

  /** Highest confidence of all: some hundred regions of known class cannot vouch for more. */
  private static final double MOST = 0.999;

  /**
   * The same where no scale is known: what hangs on absolute size is a guess then, and no
   * measurement on dies left out supports more.
   */
  static final double MOST_WITHOUT_SCALE = 0.85;

  /**
   * Metal reflects several times as much as silicon and its oxides (common practice, no source), so
   * with metal left the contrast is high nearly everywhere. Contrast over brightness that a tenth
   * and half of the tiles do not exceed: of 40 drawn dies without metal none exceeds both.
   */
  private static final double METAL_TENTH = 0.045;

  private static final double METAL_HALF = 0.085;

  /**
   * Looks at a whole picture.
   *
   * @param edgeFound whether the die's edge was found
   * @param toneExponent power that the greys were raised to; contrast over brightness grows with it
   */
  static UnfamiliarityCheck of(
      TileClassifier classifier,
      FeatureTable features,
      boolean edgeFound,
      double toneExponent,
      FamiliarityTuning tuning) {
    List<Notice> out = new ArrayList<>();
    RelativeContrast contrast = RelativeContrast.of(features);
    double half = contrast.quantile(0.5) / toneExponent;
    if (contrast.quantile(0.1) / toneExponent > METAL_TENTH && half > METAL_HALF) {
      out.add(
          SevereNotice.METAL_LEFT.says(
              String.format(
                  Locale.ROOT,
                  "The contrast is higher than that of bare silicon nearly everywhere (half of the"
                      + " tiles above %.0f %% of their brightness): metal seems to be left, so the"
                      + " die is not delayered.",
                  100 * half),
              "Delayer the die to the diffusion layer and photograph it again; confidences of this"
                  + " survey are held at "
                  + Math.round(100 * MOST_CONFIDENCE)
                  + " % or less."));
    }
    double distance = classifier.unfamiliarity(features);
    double ordinary = edgeFound ? tuning.withEdge() : tuning.withoutEdge();
    if (distance > ordinary) {
      out.add(
          SevereNotice.UNLIKE_TRAINING_DATA.says(
              String.format(
                  Locale.ROOT,
                  "The picture as a whole is unlike the dies that the model knows (at %.2f of the"
                      + " distance of the farthest of them; ordinary ones lie below %.2f): this may"
                      + " be no delayered die, or the scale may be wrong.",
                  distance,
                  ordinary),
              "Check the picture and the scale; confidences of this survey are held at "
                  + Math.round(100 * MOST_CONFIDENCE)
                  + " % or less."));
    }
    return new UnfamiliarityCheck(out);
  }

  /**
   * The regions with their confidence held down where there is doubt, and where no scale is known.
   */
  List<DieRegion> applied(List<DieRegion> regions, boolean scaleKnown) {
    double most = !notices.isEmpty() ? MOST_CONFIDENCE : scaleKnown ? MOST : MOST_WITHOUT_SCALE;
    return regions.stream().map(r -> r.confidence() <= most ? r : r.withConfidence(most)).toList();
  }
}
