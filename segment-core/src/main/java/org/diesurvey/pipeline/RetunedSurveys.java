package org.diesurvey.pipeline;

import org.diesurvey.photo.DiePhoto;
import org.diesurvey.survey.Survey;

/**
 * Surveys of one photograph under several tunings. What a tuning does not touch is read and
 * classified once: only other edges of the die and other limits of damage need the features anew.
 * Not for several threads.
 */
public final class RetunedSurveys implements AutoCloseable {
  private final DieSegmenter segmenter;
  private final DiePhoto photo;
  private final ScaleInput scale;
  private final DieReading reading;

  private RetunedSurveys(
      DieSegmenter segmenter, DiePhoto photo, ScaleInput scale, DieReading reading) {
    this.segmenter = segmenter;
    this.photo = photo;
    this.scale = scale;
    this.reading = reading;
  }

  /**
   * Reads a photograph.
   *
   * @param photo to be closed after this
   * @throws org.diesurvey.DieInputException if the photograph cannot be surveyed
   */
  public static RetunedSurveys of(DieSegmenter segmenter, DiePhoto photo, ScaleInput scale) {
    return new RetunedSurveys(segmenter, photo, scale, read(segmenter, photo, scale));
  }

  private static DieReading read(DieSegmenter segmenter, DiePhoto photo, ScaleInput scale) {
    Laps laps = new Laps(stage -> {});
    return segmenter.onThreads(photo, () -> segmenter.read(photo, scale, PhotoOptions.NONE, laps));
  }

  /** The survey with these values. */
  public Survey survey(Tuning tuning) {
    DieSegmenter tuned = segmenter.with(tuning);
    Tuning own = segmenter.tuning();
    if (tuning.damage().equals(own.damage()) && tuning.edges().equals(own.edges())) {
      return survey(tuned, reading);
    }
    try (DieReading anew = read(tuned, photo, scale)) {
      return survey(tuned, anew);
    }
  }

  private Survey survey(DieSegmenter tuned, DieReading of) {
    return tuned.onThreads(photo, () -> tuned.formed(of, new Laps(stage -> {}))).survey();
  }

  @Override
  public void close() {
    reading.close();
  }
}
