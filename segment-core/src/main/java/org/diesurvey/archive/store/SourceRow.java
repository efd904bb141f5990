package org.diesurvey.archive.store;

import org.diesurvey.archive.BatchOutcome;

/**
 * What the archive notes of a file that was given.
 *
 * @param path where it lies, seen from the archive
 * @param surveyKey key of its survey
 * @param sha256 of its bytes; empty if they cannot be read
 * @param outcome what became of it
 */
public record SourceRow(String path, String surveyKey, String sha256, BatchOutcome outcome) {
  /** The reason for people, with the same path; null if there is none. */
  String sentence() {
    return outcome.sentence().map(s -> s.replace(outcome.photo().place(), path)).orElse(null);
  }
}
