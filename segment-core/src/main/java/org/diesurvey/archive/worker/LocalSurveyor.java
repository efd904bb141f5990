package org.diesurvey.archive.worker;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.Supported;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoFailure;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.ScaleChoice;
import org.diesurvey.archive.pages.Thumbnails;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.ReadLimits;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;

/**
 * Surveys in this process. The time limit is looked at whenever a stage of the survey ends, so a
 * photograph may overrun it by one stage.
 */
@Supported
public final class LocalSurveyor implements PhotoSurveyor {
  private final DieSegmenter segmenter;
  private final ScaleChoice scales;
  private final Duration limit;
  private final boolean pdf;

  /**
   * @param segmenter with model and settings; its number of threads is not used
   * @param scales rule for scales
   * @param limit time for each photograph
   * @param pdf whether to write the report as PDF too
   */
  public LocalSurveyor(DieSegmenter segmenter, ScaleChoice scales, Duration limit, boolean pdf) {
    this.segmenter = segmenter;
    this.scales = scales;
    this.limit = limit;
    this.pdf = pdf;
  }

  @Override
  public void survey(BatchPhoto photo, Path folder, Instant created, int threads) {
    long start = System.nanoTime();
    if (photo.stored().isPresent()) {
      throw new DieInputException(
          DieInputException.Reason.FILE_UNREADABLE,
          photo.place()
              + ": a photograph in a store can only be read with --engine spark; copy it to a"
              + " folder, or use that engine.");
    }
    try (DiePhoto open = DiePhoto.open(photo.file(), ReadLimits.defaults(), photo.plane())) {
      SegmentSettings settings = segmenter.settings().withThreads(threads);
      if (photo.nodeNm().isPresent()) {
        settings = settings.withNodeNm(photo.nodeNm().getAsDouble());
      }
      ScaleChoice.Chosen scale = scales.choose(photo.scale(), open.info());
      Survey survey =
          segmenter
              .with(settings)
              .survey(open, scale.input(), stage -> inTime(photo, start))
              .survey();
      List<Notice> notices = new ArrayList<>();
      scale.notice().ifPresent(notices::add);
      notices.addAll(survey.notices());
      SurveyFolder.write(
          survey.withNotices(notices),
          open.pixels(),
          folder,
          created,
          pdf,
          ReadFiles.NONE,
          Thumbnails::add);
    } catch (DieInputException | PhotoFailure | CancelledException e) {
      throw e;
    } catch (OutOfMemoryError e) {
      throw new PhotoFailure(
          PhotoFailure.Kind.OUT_OF_MEMORY,
          photo.file()
              + ": the memory allowed to Java ran out; allow more, for example with"
              + " DIESURVEY_JAVA_OPTS=-Xmx8g.",
          e);
    } catch (RuntimeException | StackOverflowError | LinkageError e) {
      throw new PhotoFailure(
          PhotoFailure.Kind.PROGRAM_FAULT,
          photo.file() + ": this program failed (" + e.getClass().getSimpleName() + ").",
          e);
    }
  }

  private void inTime(BatchPhoto photo, long start) {
    if (System.nanoTime() - start > limit.toNanos()) {
      throw outOfTime(photo, limit);
    }
  }

  static PhotoFailure outOfTime(BatchPhoto photo, Duration limit) {
    return new PhotoFailure(
        PhotoFailure.Kind.TIME_LIMIT,
        String.format(
            Locale.ROOT,
            "%s: not done within %.3g s; give it more time, or a smaller picture.",
            photo.file(),
            limit.toMillis() / 1000.0),
        null);
  }

  @Override
  public SortedMap<String, String> identity() {
    SortedMap<String, String> parts = new TreeMap<>(segmenter.identity());
    parts.put("scale_choice", scales.name());
    parts.put("pdf", Boolean.toString(pdf));
    return parts;
  }

  @Override
  public void close() {
    // Nothing is held.
  }
}
