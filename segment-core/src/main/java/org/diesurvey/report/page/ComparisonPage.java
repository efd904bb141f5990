package org.diesurvey.report.page;

import static java.nio.charset.StandardCharsets.UTF_8;

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
import java.util.concurrent.CompletableFuture;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.tiles.DifferenceMap;
import org.diesurvey.files.Disk;
import org.diesurvey.report.picture.JpegText;
import org.diesurvey.report.picture.RegisteredPictures;

/**
 * The page of a comparison for people: one file that needs no other and asks nothing of the
 * network, which its own Content Security Policy enforces. Everything found can be read without its
 * program; with it, both photographs are looked at in one view.
 */
public final class ComparisonPage {
  private static final float JPEG_QUALITY = 0.82f;

  private final Comparison comparison;
  private final ComparisonSections sections;
  private final Writer out;

  private ComparisonPage(Comparison comparison, Writer out) {
    this.comparison = comparison;
    this.out = out;
    sections = new ComparisonSections(comparison);
  }

  /**
   * Writes the page to a file.
   *
   * @param still picture for print and for browsers that run no programs
   * @param created moment to show
   */
  public static void write(
      Comparison comparison,
      DifferenceMap map,
      RegisteredPictures pictures,
      BufferedImage still,
      Instant created,
      Path file)
      throws IOException {
    try (Writer out =
        new BufferedWriter(new OutputStreamWriter(Disk.create(file), UTF_8.newEncoder()))) {
      new ComparisonPage(comparison, out).page(map, pictures, still, created);
    }
  }

  /** The page as text, for small pictures. */
  static String html(
      Comparison comparison,
      DifferenceMap map,
      RegisteredPictures pictures,
      BufferedImage still,
      Instant created) {
    StringWriter text = new StringWriter();
    try {
      new ComparisonPage(comparison, text).page(map, pictures, still, created);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private void page(
      DifferenceMap map, RegisteredPictures pictures, BufferedImage still, Instant created)
      throws IOException {
    CompletableFuture<String> earlier =
        CompletableFuture.supplyAsync(() -> JpegText.base64(pictures.first(), JPEG_QUALITY));
    CompletableFuture<String> later =
        CompletableFuture.supplyAsync(() -> JpegText.base64(pictures.second(), JPEG_QUALITY));
    String viewer = PageParts.viewer();
    String program = PageParts.comparisonProgram();
    head(PageParts.comparisonStyles(), viewer, program);
    out.write("<body>\n<header>\n<div class=\"title\">\n<p class=\"kind\">Two revisions of a die");
    out.write("</p>\n<h1>" + Html.escape(comparison.a().fileName()) + " <span class=\"then\">");
    out.write("and then</span> " + Html.escape(comparison.b().fileName()) + "</h1>\n");
    out.write(sections.lead() + "</div>\n" + sections.keyFigures() + "</header>\n<main>\n");
    out.write(sections.inBrief() + PageParts.comparisonDesk());
    out.write("<figure class=\"still\">\n<img alt=\"" + Html.escape(sections.pictureInWords()));
    out.write("\" width=\"" + still.getWidth() + "\" height=\"" + still.getHeight());
    out.write("\" src=\"data:image/jpeg;base64," + JpegText.base64(still, JPEG_QUALITY));
    out.write("\">\n<figcaption>Both photographs laid on each other, in the frame of the earlier");
    out.write(" die. Dashed: where a changed block was; solid: where it is.</figcaption>\n");
    out.write("</figure>\n");
    out.write(sections.changes());
    out.write(sections.totals());
    out.write(sections.registration());
    out.write(sections.matches());
    out.write(sections.difference());
    out.write(sections.certainty());
    out.write(sections.notices());
    out.write(sections.provenance(created.truncatedTo(ChronoUnit.SECONDS)));
    out.write(PageParts.cautions().replace("one photograph", "photographs") + "</main>\n");
    json("comparison-data", ComparisonData.json(comparison, map, pictures));
    json("earlier-photo", "\"" + earlier.join() + "\"");
    json("later-photo", "\"" + later.join() + "\"");
    out.write("<script>" + viewer + "</script>\n<script>" + program + "</script>\n");
    out.write("</body>\n</html>\n");
  }

  private void json(String id, String text) throws IOException {
    out.write("<script type=\"application/json\" id=\"" + id + "\">" + text + "</script>\n");
  }

  private void head(String css, String viewer, String program) throws IOException {
    out.write("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.write("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    out.write(" img-src data:; style-src " + Html.hashSource(css));
    out.write("; script-src " + Html.hashSource(viewer) + " " + Html.hashSource(program));
    out.write("; base-uri 'none'; form-action 'none'\">\n");
    out.write("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.write("<meta name=\"color-scheme\" content=\"light dark\">\n<title>Revisions: ");
    out.write(Html.escape(sections.title()));
    out.write("</title>\n<style>" + css + "</style>\n</head>\n");
  }
}
