package org.diesurvey.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.ReadLimits;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SurveyResult;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;

/**
 * Surveys one photograph after the other into folders. A bad photograph is an outcome, not an end.
 *
 * @param segmenter with model and settings
 * @param stated scale for all photographs, or NONE
 * @param mayUseTag whether a photograph's own tag is used where nothing is stated
 * @param options which die, and the light
 * @param created moment to note in the surveys
 * @param pdf whether to write the report as PDF too
 * @param read files that must not be replaced
 */
record PhotoRun(
    DieSegmenter segmenter,
    ScaleInput stated,
    boolean mayUseTag,
    PhotoOptions options,
    Instant created,
    boolean pdf,
    ReadFiles read) {

  PhotoOutcome survey(SurveyFolders.Place place, Progress progress) {
    progress.begin(String.valueOf(place.photo().getFileName()));
    PhotoOutcome outcome = outcome(place, progress);
    progress.end(
        outcome instanceof PhotoOutcome.Surveyed s
            ? String.format(java.util.Locale.ROOT, "surveyed in %.1f s", s.totalSeconds())
            : "not surveyed");
    return outcome;
  }

  private PhotoOutcome outcome(SurveyFolders.Place place, Progress progress) {
    if (place.refusal().isPresent()) {
      return new PhotoOutcome.Rejected(place.photo(), place.refusal().get());
    }
    try {
      return surveyed(place, progress);
    } catch (DieInputException e) {
      return new PhotoOutcome.Rejected(place.photo(), e);
    } catch (RuntimeException | OutOfMemoryError | StackOverflowError | LinkageError e) {
      return new PhotoOutcome.Failed(place.photo(), e);
    }
  }

  private PhotoOutcome surveyed(SurveyFolders.Place place, Progress progress) {
    Map<String, Double> seconds = new LinkedHashMap<>();
    long start = System.nanoTime();
    try (DiePhoto photo = DiePhoto.open(place.photo(), ReadLimits.defaults(), options.plane());
        PicturesAhead ahead = new PicturesAhead(photo.pixels())) {
      seconds.put("open", secondsSince(start));
      progress.stageDone("open");
      PhotoScale scale = PhotoScale.choose(stated, mayUseTag, photo.info());
      SurveyResult result =
          segmenter.survey(
              photo,
              scale.input(),
              options,
              stage -> {
                progress.stageDone(stage);
                ahead.stageDone(stage);
              });
      seconds.putAll(result.stages().seconds());
      Survey survey = with(result.survey(), scale.notice());
      start = System.nanoTime();
      SurveyFolder.write(
          survey,
          photo.pixels(),
          ahead.pictures(),
          place.folder(),
          created,
          pdf,
          read,
          (overlay, folder) -> {});
      seconds.put("write", secondsSince(start));
      return new PhotoOutcome.Surveyed(place.photo(), survey, place.folder(), seconds);
    }
  }

  /** The survey with one more notice, first in the list. */
  static Survey with(Survey s, Optional<Notice> notice) {
    if (notice.isEmpty()) {
      return s;
    }
    List<Notice> notices = new ArrayList<>();
    notices.add(notice.get());
    notices.addAll(s.notices());
    return s.withNotices(notices);
  }

  private static double secondsSince(long start) {
    return (System.nanoTime() - start) / 1e9;
  }
}
