package org.diesurvey.report;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;
import javax.imageio.ImageIO;
import org.diesurvey.files.Disk;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.annotation.AnnotationWriter;
import org.diesurvey.interchange.gds.GdsWriter;
import org.diesurvey.interchange.geojson.GeoJsonWriter;
import org.diesurvey.interchange.svg.SvgWriter;
import org.diesurvey.report.pdf.PdfReport;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.picture.LabelTiff;
import org.diesurvey.report.table.RegionCsv;
import org.diesurvey.survey.Survey;

/**
 * Writes a survey as one file of another kind.
 *
 * @param survey what to write
 * @param created moment to note where the kind has a place for it
 * @param photoLink where the photograph lies as seen from the file, an IRI reference; for SVG
 * @param picture PNG of the regions on the photograph, for the PDF; it is told if there is none
 */
public record SurveyExport(
    Survey survey, Instant created, Optional<String> photoLink, Optional<Path> picture) {

  /**
   * Writes the file, and beside it FILE.sha256 with its checksum; it appears complete or not at
   * all. One that is there is replaced only if it was exported and not changed since.
   *
   * @throws org.diesurvey.DieInputException SCALE_INVALID if the kind is in um and the survey has
   *     no scale; OUTPUT_NOT_WRITABLE
   */
  public void write(ExportKind kind, Path file) {
    write(kind, file, ReadFiles.NONE);
  }

  /**
   * The same for one who knows what the call reads.
   *
   * @param read files that must not be replaced
   */
  public void write(ExportKind kind, Path file, ReadFiles read) {
    String name = file.toAbsolutePath().normalize().getFileName().toString();
    OwnFiles.of(file, read).fill(Set.of(name), fresh -> fill(kind, fresh.resolve(name)));
  }

  private void fill(ExportKind kind, Path file) throws IOException {
    switch (kind) {
      case GEOJSON -> text(file, GeoJsonWriter.text(SurveyOutlines.of(survey)));
      case SVG ->
          text(
              file,
              SvgWriter.text(
                  SurveyOutlines.of(survey, OutlineFrame.PHOTO_PX),
                  photoLink,
                  c -> ClassStyle.of(c).hex()));
      case GDSII ->
          Disk.write(
              file, GdsWriter.bytes(SurveyOutlines.of(survey, OutlineFrame.DIE_UM), created));
      case ANNOTATIONS ->
          text(file, AnnotationWriter.text(SurveyOutlines.of(survey, OutlineFrame.PHOTO_PX)));
      case CSV -> text(file, RegionCsv.text(survey));
      case TIFF -> LabelTiff.write(survey, false, file);
      case OME_TIFF -> LabelTiff.write(survey, true, file);
      case PDF -> pdf(file);
    }
  }

  private void pdf(Path file) throws IOException {
    Optional<BufferedImage> image = Optional.empty();
    if (picture.isPresent()) {
      // Null where the file is no picture that can be read.
      image = Optional.ofNullable(ImageIO.read(picture.get().toFile()));
    }
    try (OutputStream out = new BufferedOutputStream(Disk.create(file))) {
      PdfReport.write(survey, image, created, out);
    }
  }

  private static void text(Path file, String text) throws IOException {
    Disk.write(file, text.getBytes(StandardCharsets.UTF_8));
  }
}
