package org.diesurvey.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.diesurvey.DieInputException;
import org.diesurvey.Supported;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.files.ResultKind;
import org.diesurvey.files.WholeFolder;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.geojson.GeoJsonWriter;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.report.page.ReportPage;
import org.diesurvey.report.pdf.PdfReport;
import org.diesurvey.report.picture.MapFiles;
import org.diesurvey.report.picture.OverlayPicture;
import org.diesurvey.report.picture.PhotoPictures;
import org.diesurvey.report.picture.RegionLook;
import org.diesurvey.report.table.RegionCsv;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/**
 * The folder of one surveyed photograph. It appears complete or not at all: everything is written
 * to a hidden folder beside it and then renamed.
 */
@Supported
public final class SurveyFolder {
  /** The complete result. */
  public static final String SURVEY = "survey.json";

  /** Class codes in the pixel frame of the photograph. */
  public static final String LABEL_MAP = "label-map.png";

  /** The classes in the colours of the legend, in the pixel frame of the photograph. */
  public static final String CLASSES = "classes.png";

  /** Confidence, 0 to 255 for 0 to 1, in the pixel frame of the photograph. */
  public static final String CONFIDENCE_MAP = "confidence-map.png";

  /** The photograph with the regions drawn on it. */
  public static final String OVERLAY = "overlay.png";

  /** Outlines in planar um, or px without a scale. */
  public static final String GEOJSON = "regions.geojson";

  /** Table of regions. */
  public static final String CSV = "regions.csv";

  /** The page for people. */
  public static final String REPORT = "report.html";

  /** The page as PDF for archives, where it is asked for. */
  public static final String REPORT_PDF = "report.pdf";

  private SurveyFolder() {}

  /**
   * Writes all files of a survey and the list of their checksums. A folder of an earlier survey is
   * replaced, files of other origin in it are kept; a folder without our mark is refused, and so is
   * one with a file of the survey that somebody changed.
   *
   * @param survey the result
   * @param photo the photograph that was surveyed, for the overlay
   * @param folder where to write; its parents are created
   * @param created the moment to note in the survey
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  public static void write(Survey survey, PixelSource photo, Path folder, Instant created) {
    write(survey, photo, folder, created, false);
  }

  /**
   * The same, with {@link #REPORT_PDF} if wanted.
   *
   * @param pdf whether to write the report as PDF too
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  public static void write(
      Survey survey, PixelSource photo, Path folder, Instant created, boolean pdf) {
    write(survey, photo, folder, created, pdf, ReadFiles.NONE, (overlay, fresh) -> {});
  }

  /** Work that adds a file to a folder before it is complete. */
  public interface Addition {
    /**
     * Adds it.
     *
     * @param overlay the picture of {@link #OVERLAY}; not to be changed
     * @param folder where to write
     */
    void add(BufferedImage overlay, Path folder) throws IOException;
  }

  /**
   * The same for one who knows what the call reads, or has a file to add.
   *
   * @param photo the photograph that was surveyed
   * @param read files that must not be replaced
   * @param addition called once the picture is made
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  public static void write(
      Survey survey,
      PixelSource photo,
      Path folder,
      Instant created,
      boolean pdf,
      ReadFiles read,
      Addition addition) {
    write(survey, photo, PhotoPictures.of(photo), folder, created, pdf, read, addition);
  }

  /**
   * The same with pictures of the photograph that may have been made while it was surveyed.
   *
   * @param pictures of the photograph; used up
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  public static void write(
      Survey survey,
      PixelSource photo,
      PhotoPictures pictures,
      Path folder,
      Instant created,
      boolean pdf,
      ReadFiles read,
      Addition addition) {
    WholeFolder.write(
        folder,
        ResultKind.SURVEY,
        read,
        fresh -> fill(fresh, survey, photo, pictures, created, pdf, addition));
  }

  /** Maps and tables are made beside the overlay; all are done, or have failed, on return. */
  private static void fill(
      Path folder,
      Survey survey,
      PixelSource photo,
      PhotoPictures pictures,
      Instant created,
      boolean pdf,
      Addition addition)
      throws IOException {
    CompletableFuture<Void> tables =
        beside(
            () -> {
              MapFiles.write(
                  survey,
                  folder.resolve(LABEL_MAP),
                  folder.resolve(CONFIDENCE_MAP),
                  folder.resolve(CLASSES));
              Disk.write(
                  folder.resolve(GEOJSON),
                  GeoJsonWriter.text(SurveyOutlines.of(survey)).getBytes(UTF_8));
              Disk.write(folder.resolve(CSV), RegionCsv.text(survey).getBytes(UTF_8));
              Disk.write(folder.resolve(SURVEY), SurveyJson.write(survey, Optional.of(created)));
            });
    CompletableFuture<Void> picture = CompletableFuture.completedFuture(null);
    try {
      BufferedImage overlay = OverlayPicture.of(survey, pictures);
      addition.add(overlay, folder);
      picture = beside(() -> MapFiles.writePicture(overlay, folder.resolve(OVERLAY)));
      ReportPage.write(
          survey,
          overlay,
          pictures.pyramid(),
          RegionLook.of(survey, photo),
          created,
          folder.resolve(REPORT));
      if (pdf) {
        try (OutputStream out = new BufferedOutputStream(Disk.create(folder.resolve(REPORT_PDF)))) {
          PdfReport.write(survey, Optional.of(overlay), created, out);
        }
      }
    } finally {
      CompletableFuture.allOf(tables, picture).handle((done, fault) -> done).join();
    }
    await(tables);
    await(picture);
  }

  /** Work that writes a file. */
  private interface Writing {
    void run() throws IOException;
  }

  private static CompletableFuture<Void> beside(Writing work) {
    return CompletableFuture.runAsync(
        () -> {
          try {
            work.run();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  private static void await(CompletableFuture<Void> work) throws IOException {
    try {
      work.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof UncheckedIOException io) {
        throw io.getCause();
      }
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw e;
    }
  }
}
