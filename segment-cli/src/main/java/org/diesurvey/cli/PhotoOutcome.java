package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.diesurvey.DieInputException;
import org.diesurvey.survey.Survey;

/** What became of one photograph. */
sealed interface PhotoOutcome {

  /** The path as the user wrote it. */
  Path photo();

  /**
   * Surveyed.
   *
   * @param survey as written
   * @param folder that holds it
   * @param seconds by stage, from opening to writing
   */
  record Surveyed(Path photo, Survey survey, Path folder, Map<String, Double> seconds)
      implements PhotoOutcome {
    /** Keeps the order and copies. */
    public Surveyed {
      seconds = Collections.unmodifiableMap(new LinkedHashMap<>(seconds));
    }

    double totalSeconds() {
      return seconds.values().stream().mapToDouble(Double::doubleValue).sum();
    }
  }

  /** Not surveyed, because of the photograph, its scale or its folder. */
  record Rejected(Path photo, DieInputException reason) implements PhotoOutcome {
    /** One sentence that names the photograph. */
    String sentence() {
      String message = reason.getMessage();
      Path name = photo.getFileName() == null ? photo : photo.getFileName();
      return message.contains(name.toString()) ? message : photo + ": " + message;
    }
  }

  /** Not surveyed, because this program failed. */
  record Failed(Path photo, Throwable fault) implements PhotoOutcome {}
}
