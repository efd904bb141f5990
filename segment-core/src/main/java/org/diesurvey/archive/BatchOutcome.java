package org.diesurvey.archive;

import java.nio.file.Path;
import java.util.Optional;
import org.diesurvey.Supported;

/**
 * What became of one photograph.
 *
 * @param photo which
 * @param kind what
 * @param reason stable identifier for rejected and failed photographs, else empty
 * @param sentence the same for people
 * @param folder of the survey, else empty
 */
@Supported
public record BatchOutcome(
    BatchPhoto photo,
    Kind kind,
    Optional<String> reason,
    Optional<String> sentence,
    Optional<Path> folder) {

  /** What became of it. */
  public enum Kind {
    /** Surveyed in this run. */
    SURVEYED,
    /** Surveyed before from the same bytes with the same settings; left as it is. */
    UNCHANGED,
    /** Cannot be surveyed. */
    REJECTED,
    /** Not finished; tried again in the next run. */
    FAILED
  }

  /** Whether the archive holds a survey of it. */
  public boolean hasSurvey() {
    return kind == Kind.SURVEYED || kind == Kind.UNCHANGED;
  }
}
