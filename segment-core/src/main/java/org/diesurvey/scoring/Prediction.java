package org.diesurvey.scoring;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * What a survey says of a photograph, as far as it is scored.
 *
 * @param labels predicted classes in the photograph's pixel frame, codes of {@link DieClass}
 * @param regions regions with a class and a confidence; may be empty
 * @param confidence probability that the label of a pixel is right, 0 to 255 for 0 to 1, same frame
 * @param bondPads number of bond pads counted
 */
public record Prediction(
    LabelRaster labels,
    List<PredictedRegion> regions,
    Optional<LabelRaster> confidence,
    OptionalInt bondPads) {

  /**
   * A region as far as it is scored.
   *
   * @param dieClass one of the four on-die classes
   * @param confidence stated probability that the class is right, 0 to 1
   * @param outlinePx in the pixel frame of the photograph
   */
  public record PredictedRegion(DieClass dieClass, double confidence, Outline outlinePx) {}

  /** Copies the list and rejects maps of different sizes. */
  public Prediction {
    regions = List.copyOf(regions);
    LabelRaster map = confidence.orElse(labels);
    if (map.width() != labels.width() || map.height() != labels.height()) {
      throw new IllegalArgumentException(
          "confidence map of "
              + map.width()
              + " x "
              + map.height()
              + " px for a label map of "
              + labels.width()
              + " x "
              + labels.height()
              + " px");
    }
  }

  /** A prediction of which only the label map is known. */
  public static Prediction ofLabels(LabelRaster labels) {
    return new Prediction(labels, List.of(), Optional.empty(), OptionalInt.empty());
  }

  /**
   * What a survey says. Unclear regions claim no class and are left out of the regions; bond pads
   * are those of all pad rings together.
   *
   * @param labels the survey's label map
   * @param confidence the survey's confidence map, if there is one
   */
  public static Prediction of(Survey survey, LabelRaster labels, Optional<LabelRaster> confidence) {
    List<PredictedRegion> regions =
        survey.regions().stream()
            .filter(r -> r.dieClass() != DieClass.UNCLEAR)
            .map(r -> new PredictedRegion(r.dieClass(), r.confidence(), r.inPhoto().outline()))
            .toList();
    List<SurveyRegion> counted =
        survey.regions().stream().filter(r -> r.bondPads().isPresent()).toList();
    OptionalInt pads =
        counted.isEmpty()
            ? OptionalInt.empty()
            : OptionalInt.of(counted.stream().mapToInt(r -> r.bondPads().get().pads()).sum());
    return new Prediction(labels, regions, confidence, pads);
  }
}
