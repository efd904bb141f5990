package org.diesurvey.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.comparison.ComparisonResult;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.ComparisonJson;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.files.ResultKind;
import org.diesurvey.files.WholeFolder;
import org.diesurvey.report.page.ComparisonPage;
import org.diesurvey.report.pdf.ComparisonPdf;
import org.diesurvey.report.picture.ComparisonStill;
import org.diesurvey.report.picture.RegisteredPictures;
import org.diesurvey.report.table.ChangeFiles;
import org.diesurvey.survey.json.SurveyJson;

/**
 * The folder of a comparison. It appears complete or not at all, as a survey's does. Of two
 * revisions the files lie in it directly; of more, each step has a folder of its own and an
 * overview lies above them.
 */
@Supported
public final class ComparisonFolder {
  /** The complete result of two revisions. */
  public static final String COMPARISON = "comparison.json";

  /** Outlines of the changes. */
  public static final String GEOJSON = "changes.geojson";

  /** Table of changes. */
  public static final String CSV = "changes.csv";

  /** The page for people. */
  public static final String PAGE = "comparison.html";

  /** The page as PDF for archives, where it is asked for. */
  public static final String PDF = "comparison.pdf";

  /** The surveys that the comparison names regions of. */
  public static final String EARLIER = "earlier-survey.json";

  /** The other survey. */
  public static final String LATER = "later-survey.json";

  /** Overview of more than two revisions. */
  public static final String OVERVIEW = "revisions.html";

  /** Table of all changes of more than two revisions. */
  public static final String OVERVIEW_CSV = "revisions.csv";

  /** Pixels of each picture in a page. */
  private static final double PICTURE_PX = 8e6;

  private ComparisonFolder() {}

  /**
   * One step from a revision to the next.
   *
   * @param earlier the first side, its photograph open
   * @param later the second side, its photograph open
   * @param result what the comparison gave
   */
  public record Step(ComparisonSide earlier, ComparisonSide later, ComparisonResult result) {}

  /** Work that yields the steps one by one, so that photographs need not all be open at once. */
  public interface Steps {
    /**
     * The next step, or empty where it could not be compared.
     *
     * @param number from 1
     */
    Optional<Step> step(int number);
  }

  /**
   * Writes two revisions or more. Of more than two there is a folder for each step that could be
   * compared, and the overview.
   *
   * @param names of the revisions in order, at least two
   * @param steps as many as names, less one
   * @param folder where to write; its parents are created
   * @param created the moment to note
   * @param pdf whether to write the pages as PDF too
   * @param read files that must not be replaced
   * @return comparisons of the steps, empty where there is none
   * @throws DieInputException OUTPUT_NOT_WRITABLE, or NO_COMMON_LAYOUT if no step could be
   *     compared; then the folder is as it was
   */
  public static List<Optional<Comparison>> write(
      List<String> names, Steps steps, Path folder, Instant created, boolean pdf, ReadFiles read) {
    List<Optional<Comparison>> done = new ArrayList<>();
    WholeFolder.write(
        folder,
        ResultKind.COMPARISON,
        read,
        fresh -> {
          for (int i = 1; i < names.size(); i++) {
            Optional<Step> step = steps.step(i);
            if (step.isPresent()) {
              fill(
                  names.size() == 2 ? fresh : Disk.folder(fresh.resolve(stepName(i))),
                  step.get(),
                  created,
                  pdf);
            }
            done.add(step.map(s -> s.result().comparison()));
          }
          if (done.stream().noneMatch(Optional::isPresent)) {
            throw new DieInputException(
                Reason.NO_COMMON_LAYOUT,
                folder + ": no revision could be compared with the next, so nothing was written.");
          }
          if (names.size() > 2) {
            RevisionOverview overview = new RevisionOverview(names, done);
            Disk.write(fresh.resolve(OVERVIEW), overview.html(created).getBytes(UTF_8));
            Disk.write(fresh.resolve(OVERVIEW_CSV), overview.csv().getBytes(UTF_8));
          }
        });
    return List.copyOf(done);
  }

  /** Name of the folder of a step: "1-2" for the first. */
  static String stepName(int number) {
    return number + "-" + (number + 1);
  }

  private static void fill(Path folder, Step step, Instant created, boolean pdf)
      throws IOException {
    Comparison comparison = step.result().comparison();
    Disk.write(
        folder.resolve(COMPARISON),
        ComparisonJson.write(comparison, Optional.of(created)).getBytes(UTF_8));
    Disk.write(folder.resolve(GEOJSON), ChangeFiles.geoJson(comparison).getBytes(UTF_8));
    Disk.write(folder.resolve(CSV), ChangeFiles.csv(comparison).getBytes(UTF_8));
    Disk.write(
        folder.resolve(EARLIER), SurveyJson.write(step.earlier().survey(), Optional.of(created)));
    Disk.write(
        folder.resolve(LATER), SurveyJson.write(step.later().survey(), Optional.of(created)));
    RegisteredPictures pictures =
        RegisteredPictures.of(
            step.result(),
            step.earlier().photo().pixels(),
            step.later().photo().pixels(),
            PICTURE_PX);
    BufferedImage still = ComparisonStill.of(comparison, pictures);
    ComparisonPage.write(
        comparison, step.result().map(), pictures, still, created, folder.resolve(PAGE));
    if (pdf) {
      try (OutputStream out = new BufferedOutputStream(Disk.create(folder.resolve(PDF)))) {
        ComparisonPdf.write(comparison, still, created, out);
      }
    }
  }
}
