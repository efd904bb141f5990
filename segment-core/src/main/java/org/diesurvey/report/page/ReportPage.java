package org.diesurvey.report.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import org.diesurvey.files.Disk;
import org.diesurvey.report.picture.JpegText;
import org.diesurvey.report.picture.PhotoPyramid;
import org.diesurvey.report.picture.RegionLook;
import org.diesurvey.survey.Survey;

/**
 * The page for people: one file that needs no other and asks nothing of the network, which its own
 * Content Security Policy enforces. Everything found can be read without its program; with it, the
 * photograph can be looked at closely, measured, and the outlines corrected.
 */
public final class ReportPage {
  private static final float JPEG_QUALITY = 0.8f;

  /** Long side of the still picture, px: enough for print. */
  private static final int STILL_PX = 1600;

  private final Survey survey;
  private final Map<String, RegionLook> looks;
  private final ReportSections sections;
  private final Writer out;

  private ReportPage(Survey survey, Map<String, RegionLook> looks, Writer out) {
    this.survey = survey;
    this.looks = looks;
    this.out = out;
    sections = new ReportSections(survey);
  }

  /**
   * Writes the page to a file.
   *
   * @param overlay picture of the survey
   * @param pyramid the photograph without drawings
   * @param looks crops of regions by id
   * @param created moment to show
   */
  public static void write(
      Survey survey,
      BufferedImage overlay,
      PhotoPyramid pyramid,
      Map<String, RegionLook> looks,
      Instant created,
      Path file)
      throws IOException {
    try (Writer out =
        new BufferedWriter(new OutputStreamWriter(Disk.create(file), UTF_8.newEncoder()))) {
      new ReportPage(survey, looks, out).page(overlay, pyramid, created);
    }
  }

  /** The page as text, for small photographs; without crops. */
  public static String html(
      Survey survey, BufferedImage overlay, PhotoPyramid pyramid, Instant created) {
    StringWriter text = new StringWriter();
    try {
      new ReportPage(survey, Map.of(), text).page(overlay, pyramid, created);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private void page(BufferedImage overlay, PhotoPyramid pyramid, Instant created)
      throws IOException {
    String viewer = PageParts.viewer();
    String program = PageParts.program();
    head(PageParts.styles(), viewer, program);
    RegionTables tables = new RegionTables(survey);
    out.write("<body>\n<a class=\"skip live-only\" href=\"#plate\">Skip to the picture</a>\n");
    out.write(ShareChart.patterns());
    out.write("<header>\n<div class=\"title\">\n<p class=\"kind\">Die survey</p>\n<h1>");
    out.write(Html.escape(survey.photo().fileName()));
    out.write("</h1>\n" + sections.lead() + "</div>\n" + sections.keyFigures());
    out.write(sections.headline() + "</header>\n<main>\n" + sections.inBrief() + PageParts.desk());
    still(overlay);
    out.write(sections.shares());
    out.write(EstimateSection.html(survey));
    out.write(tables.regions());
    out.write(tables.evidence());
    out.write(BudgetChart.section(survey));
    out.write(ReportNotes.certainty(survey));
    out.write(ReportNotes.picture(survey, pyramid));
    out.write(ReportNotes.notices(survey.notices()));
    out.write(ReportNotes.provenance(survey, created.truncatedTo(ChronoUnit.SECONDS)));
    out.write(PageParts.cautions() + "</main>\n");
    data(pyramid);
    out.write("<script>" + viewer + "</script>\n<script>" + program + "</script>\n");
    out.write("</body>\n</html>\n");
  }

  private void head(String css, String viewer, String program) throws IOException {
    out.write("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.write("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    out.write(" img-src data:; style-src " + Html.hashSource(css));
    out.write("; script-src " + Html.hashSource(viewer) + " " + Html.hashSource(program));
    out.write("; base-uri 'none'; form-action 'none'\">\n");
    out.write("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.write("<meta name=\"color-scheme\" content=\"light dark\">\n<title>Die survey: ");
    out.write(Html.escape(survey.photo().fileName()));
    out.write("</title>\n<style>" + css + "</style>\n</head>\n");
  }

  /** The picture for print, and for readers whose browser runs no programs. */
  private void still(BufferedImage overlay) throws IOException {
    BufferedImage picture = shrunk(overlay);
    out.write("<figure class=\"still\">\n<img alt=\"");
    out.write(Html.escape(sections.pictureInWords()));
    out.write("\" width=\"" + picture.getWidth() + "\" height=\"" + picture.getHeight());
    out.write("\" src=\"data:image/jpeg;base64," + JpegText.base64(picture, JPEG_QUALITY));
    out.write("\">\n<figcaption>The photograph with the regions found. Solid outlines: regions;");
    out.write(" thin dashed lines: bit-cell arrays inside a memory array");
    out.write(survey.die().edgeFound() ? "; white line: die edge." : ".");
    out.write("</figcaption>\n</figure>\n");
  }

  private static BufferedImage shrunk(BufferedImage image) {
    double by = (double) STILL_PX / Math.max(image.getWidth(), image.getHeight());
    if (by >= 1) {
      return image;
    }
    int width = Math.max(1, (int) Math.round(by * image.getWidth()));
    int height = Math.max(1, (int) Math.round(by * image.getHeight()));
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    var g = small.createGraphics();
    g.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    g.drawImage(image, 0, 0, width, height, null);
    g.dispose();
    return small;
  }

  private void data(PhotoPyramid pyramid) throws IOException {
    out.write("<script type=\"application/json\" id=\"survey-data\">");
    out.write(ReportData.json(survey, pyramid, looks));
    out.write("</script>\n");
    for (PhotoPyramid.Level level : pyramid.levels()) {
      out.write("<script type=\"application/json\" id=\"tiles-" + level.halvings() + "\">");
      out.write(ReportData.tiles(level));
      out.write("</script>\n");
    }
  }
}
