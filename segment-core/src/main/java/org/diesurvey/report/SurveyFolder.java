package org.diesurvey.report;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.interchange.GeoJsonWriter;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyJson;

/**
 * The folder of one surveyed photograph. It appears complete or not at all: everything is written
 * to a hidden folder beside it and then renamed.
 */
public final class SurveyFolder {
  /** The complete result. */
  public static final String SURVEY = "survey.json";

  /** Class codes in the pixel frame of the photograph. */
  public static final String LABEL_MAP = "label-map.png";

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

  private static final List<String> NAMES =
      List.of(SURVEY, LABEL_MAP, CONFIDENCE_MAP, OVERLAY, GEOJSON, CSV, REPORT, REPORT_PDF);

  private SurveyFolder() {}

  /**
   * Writes all files of a survey. A folder of an earlier survey is replaced, files of other origin
   * in it are kept; any other folder with something in it is refused.
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
    Path target = folder.toAbsolutePath().normalize();
    requireOurs(target);
    String mark = "." + target.getFileName() + "-" + UUID.randomUUID();
    Path fresh = target.resolveSibling(mark + ".new");
    Path old = target.resolveSibling(mark + ".old");
    try {
      Files.createDirectories(target.getParent());
      Files.createDirectory(fresh);
      try {
        fill(fresh, survey, photo, created, pdf);
        replace(target, fresh, old);
      } finally {
        delete(fresh);
      }
    } catch (IOException | UncheckedIOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          folder
              + ": the survey cannot be written here; choose a folder that you may write to, on a"
              + " disk with free space.",
          e);
    }
  }

  private static void requireOurs(Path target) {
    if (!Files.exists(target)) {
      return;
    }
    boolean ours = false;
    if (Files.isDirectory(target)) {
      try (Stream<Path> inside = Files.list(target)) {
        ours = inside.findAny().isEmpty();
      } catch (IOException e) {
        throw new DieInputException(
            Reason.OUTPUT_NOT_WRITABLE,
            target + ": this folder cannot be read; choose another output folder.",
            e);
      }
      ours |= holdsSurvey(target.resolve(SURVEY));
    }
    if (!ours) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          target
              + ": something that is no survey is here already and will not be overwritten; choose"
              + " another output folder.");
    }
  }

  /** Whether the file says of itself that it is a survey, of whatever version. */
  private static boolean holdsSurvey(Path file) {
    try (var in = Files.newInputStream(file)) {
      String start = new String(in.readNBytes(200), StandardCharsets.UTF_8);
      return start.contains('"' + Survey.FORMAT + '"');
    } catch (IOException e) {
      return false;
    }
  }

  /** Maps and tables are made beside the overlay; all are done, or have failed, on return. */
  private static void fill(
      Path folder, Survey survey, PixelSource photo, Instant created, boolean pdf)
      throws IOException {
    CompletableFuture<Void> tables =
        beside(
            () -> {
              MapFiles.write(survey, folder.resolve(LABEL_MAP), folder.resolve(CONFIDENCE_MAP));
              Files.writeString(
                  folder.resolve(GEOJSON), GeoJsonWriter.text(SurveyOutlines.of(survey)));
              Files.writeString(folder.resolve(CSV), RegionCsv.text(survey));
              Files.write(folder.resolve(SURVEY), SurveyJson.write(survey, Optional.of(created)));
            });
    CompletableFuture<Void> picture = CompletableFuture.completedFuture(null);
    try {
      BufferedImage overlay = OverlayPicture.of(survey, photo);
      picture = beside(() -> MapFiles.writePicture(overlay, folder.resolve(OVERLAY)));
      PhotoPyramid pyramid = PhotoPyramid.of(photo);
      ReportPage.write(survey, overlay, pyramid, created, folder.resolve(REPORT));
      if (pdf) {
        try (OutputStream out =
            new BufferedOutputStream(Files.newOutputStream(folder.resolve(REPORT_PDF)))) {
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

  private static void replace(Path target, Path fresh, Path old) throws IOException {
    boolean before = Files.exists(target);
    if (before) {
      Files.move(target, old, StandardCopyOption.ATOMIC_MOVE);
    }
    try {
      Files.move(fresh, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      if (before) {
        Files.move(old, target, StandardCopyOption.ATOMIC_MOVE);
      }
      throw e;
    }
    if (before) {
      keepForeign(old, target);
      delete(old);
    }
  }

  /** Notes and pictures that someone laid beside an earlier survey move into the new folder. */
  private static void keepForeign(Path old, Path target) throws IOException {
    List<Path> inside;
    try (Stream<Path> all = Files.list(old)) {
      inside = all.filter(p -> !NAMES.contains(p.getFileName().toString())).toList();
    }
    for (Path p : inside) {
      Files.move(p, target.resolve(p.getFileName().toString()));
    }
  }

  /** Deletes a folder of plain files, if it is there. */
  private static void delete(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    List<Path> inside;
    try (Stream<Path> all = Files.list(folder)) {
      inside = all.toList();
    }
    for (Path p : inside) {
      Files.delete(p);
    }
    Files.delete(folder);
  }
}
