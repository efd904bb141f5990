package org.diesurvey;

import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.survey.Survey;

/** Surveys of the outside pictures by the shipped model, each made once for all tests. */
public final class SharedSurveys {
  private static final Map<Path, Survey> MADE = new ConcurrentHashMap<>();

  private SharedSurveys() {}

  /**
   * The survey of a picture with the scale that its truth file states, good to 0.2 %, if any.
   *
   * @param json the truth file
   */
  public static Survey of(Path json) {
    return MADE.computeIfAbsent(json.toAbsolutePath().normalize(), SharedSurveys::make);
  }

  /** The scale that the truth file states. */
  public static ScaleInput scale(Path json) {
    Truth truth = TruthFile.read(json);
    return truth.umPerPx().isPresent()
        ? new ScaleInput.Known(
            Calibration.ofPixelPitch(
                truth.umPerPx().getAsDouble(), 0.002 * truth.umPerPx().getAsDouble()))
        : ScaleInput.NONE;
  }

  /** The photograph of a truth file. */
  public static Path photo(Path json) {
    return json.resolveSibling(TruthFile.read(json).name() + ".jpg");
  }

  private static Survey make(Path json) {
    try (DiePhoto photo = DiePhoto.open(photo(json))) {
      return DieSegmenter.withDefaults().survey(photo, scale(json)).survey();
    }
  }
}
