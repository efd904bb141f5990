package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.ReadLimits;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SurveyResult;
import org.diesurvey.preparation.FlatField;
import org.diesurvey.preparation.ReadingSteps;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/**
 * A revision as named in the call: a photograph, or a survey by its folder or file.
 *
 * @param given as the user wrote it
 * @param survey the survey's file; empty for a photograph
 */
record Revision(Path given, Optional<Path> survey) {
  static Revision of(Path given) {
    Path inside = given.resolve(SurveyFolder.SURVEY);
    if (Files.isDirectory(given)) {
      if (!Files.isRegularFile(inside)) {
        throw new DieInputException(
            Reason.FILE_IS_DIRECTORY,
            given + ": this folder holds no survey; name a photograph or the folder of a survey.");
      }
      return new Revision(given, Optional.of(inside));
    }
    boolean json = given.toString().toLowerCase(Locale.ROOT).endsWith(".json");
    return new Revision(given, json ? Optional.of(given) : Optional.empty());
  }

  boolean isPhotograph() {
    return survey.isEmpty();
  }

  /** Bytes of the file that was named; 0 if there is none. */
  long bytes() {
    try {
      return Files.isRegularFile(given) ? Files.size(given) : 0;
    } catch (IOException e) {
      return 0;
    }
  }

  /** The last part of what the user wrote. */
  String name() {
    Path name = given.toAbsolutePath().normalize().getFileName();
    return name == null ? given.toString() : name.toString();
  }

  /**
   * Opens the photograph and surveys it, or reads its survey. The caller closes the photograph.
   *
   * @param segmenter for photographs
   * @param scale stated for this photograph
   * @param mayUseTag whether the photograph's own tag may be used
   * @param folders where photographs of surveys lie, besides beside and above the survey
   * @throws DieInputException if the photograph is missing, altered or cannot be surveyed
   */
  ComparisonSide open(
      DieSegmenter segmenter,
      ScaleInput scale,
      boolean mayUseTag,
      List<Path> folders,
      Progress progress) {
    Optional<Survey> read = survey.map(file -> SurveyJson.readDocument(file).survey());
    DiePhoto photo =
        DiePhoto.open(
            read.map(s -> fileOf(s.photo().fileName(), "the photograph that was surveyed", folders))
                .orElse(given),
            ReadLimits.defaults(),
            read.map(s -> ReadingSteps.plane(s.preparation().steps())).orElse(OptionalInt.empty()));
    boolean kept = false;
    try {
      ComparisonSide side =
          read.isPresent()
              ? new ComparisonSide(read.get(), photo, light(read.get(), folders), Optional.empty())
              : surveyed(photo, segmenter, scale, mayUseTag, progress);
      kept = true;
      return side;
    } finally {
      if (!kept) {
        photo.close();
      }
    }
  }

  /**
   * The survey: read, or made of the photograph.
   *
   * @throws DieInputException if the file is missing or cannot be used
   */
  Survey survey(DieSegmenter segmenter, ScaleInput scale, boolean mayUseTag, Progress progress) {
    if (survey.isPresent()) {
      return SurveyJson.readDocument(survey.get()).survey();
    }
    try (DiePhoto photo = DiePhoto.open(given)) {
      return surveyed(photo, segmenter, scale, mayUseTag, progress).survey();
    }
  }

  private static ComparisonSide surveyed(
      DiePhoto photo,
      DieSegmenter segmenter,
      ScaleInput stated,
      boolean mayUseTag,
      Progress progress) {
    PhotoScale scale = PhotoScale.choose(stated, mayUseTag, photo.info());
    SurveyResult made =
        segmenter.survey(photo, scale.input(), PhotoOptions.NONE, progress::stageDone);
    return new ComparisonSide(
        PhotoRun.with(made.survey(), scale.notice()),
        photo,
        Optional.empty(),
        Optional.of(made.tiles()));
  }

  /** The empty field that a survey measured the light on. */
  private Optional<FlatField> light(Survey read, List<Path> folders) {
    return read.preparation()
        .flatField()
        .map(f -> fileOf(f.fileName(), "the empty field that the light was measured on", folders))
        .map(PhotoStatements::flatField);
  }

  /** A file that a survey names: in the folders named, or beside the survey and above it. */
  private Path fileOf(String named, String what, List<Path> folders) {
    return NamedFile.find(
            named, folders, survey.orElseThrow().toAbsolutePath().normalize().getParent())
        .orElseThrow(
            () ->
                new DieInputException(
                    Reason.FILE_MISSING,
                    given
                        + ": "
                        + what
                        + ", '"
                        + named
                        + "', is not beside the survey; name its folder with --photos."));
  }
}
