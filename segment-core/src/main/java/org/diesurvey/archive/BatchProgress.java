package org.diesurvey.archive;

import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * How far a run is.
 *
 * @param photos given
 * @param surveyed in this run
 * @param unchanged left as they were
 * @param rejected cannot be surveyed
 * @param failed not finished
 * @param seconds since the start
 */
@Supported
public record BatchProgress(
    int photos, int surveyed, int unchanged, int rejected, int failed, double seconds) {

  /** Photographs that are done, well or badly. */
  public int done() {
    return surveyed + unchanged + rejected + failed;
  }

  /** Photographs per minute, those left unchanged not counted; empty before the first. */
  public OptionalDouble perMinute() {
    int worked = surveyed + rejected + failed;
    return worked == 0 || !(seconds > 0)
        ? OptionalDouble.empty()
        : OptionalDouble.of(60 * worked / seconds);
  }

  /** Seconds left at this rate; empty before the first. */
  public OptionalDouble secondsLeft() {
    OptionalDouble rate = perMinute();
    return rate.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(60 * (photos - done()) / rate.getAsDouble());
  }

  public BatchProgress plus(BatchOutcome.Kind kind, double secondsNow) {
    return new BatchProgress(
        photos,
        surveyed + (kind == BatchOutcome.Kind.SURVEYED ? 1 : 0),
        unchanged + (kind == BatchOutcome.Kind.UNCHANGED ? 1 : 0),
        rejected + (kind == BatchOutcome.Kind.REJECTED ? 1 : 0),
        failed + (kind == BatchOutcome.Kind.FAILED ? 1 : 0),
        secondsNow);
  }
}
