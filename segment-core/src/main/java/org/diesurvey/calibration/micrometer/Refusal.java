package org.diesurvey.calibration.micrometer;

import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Sentences for photographs that give no scale. */
final class Refusal {
  private final String photo;

  Refusal(String photo) {
    this.photo = photo;
  }

  DieInputException of(String seen, String remedy, Object... figures) {
    return new DieInputException(
        Reason.MICROMETER_UNUSABLE,
        photo + ": " + String.format(Locale.ROOT, seen, figures) + "; " + remedy + ".");
  }

  DieInputException noScale() {
    return of(
        "no scale of a stage micrometer is to be seen",
        "photograph the engraved lines in focus, filling much of the picture, and nothing else");
  }

  DieInputException tooFew(int lines) {
    return of(
        "only %d division lines were found, but %d are needed",
        "move the scale into the field, or use an objective of lower power",
        lines,
        MicrometerFinder.FEWEST_LINES);
  }
}
