package org.diesurvey.report.pdf;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.EstimateShift;
import org.diesurvey.comparison.document.QuantityShift;
import org.diesurvey.report.page.ComparisonSections;
import org.diesurvey.report.page.PageParts;
import org.diesurvey.report.picture.ComparisonStill;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.report.text.DieWords;

/**
 * A comparison for archives: the words of the page, both pictures, and the tables of changes and
 * totals on numbered A4 pages, as PDF/A-1b.
 */
public final class ComparisonPdf {
  private static final float SMALL = 8.5f;
  private static final float HIGHEST_PICTURE = 330;
  private static final float JPEG_QUALITY = 0.85f;

  private final Comparison comparison;
  private final PdfPages pages;

  private ComparisonPdf(Comparison comparison, PdfPages pages) {
    this.comparison = comparison;
    this.pages = pages;
  }

  /**
   * Writes the document.
   *
   * @param still both photographs with the changes
   * @param created moment to show and to mark the document with
   */
  public static void write(
      Comparison comparison, BufferedImage still, Instant created, OutputStream out)
      throws IOException {
    Instant moment = created.truncatedTo(ChronoUnit.SECONDS);
    String software = "diesurvey " + comparison.softwareVersion();
    String title = "Revisions: " + new ComparisonSections(comparison).title();
    try (PDDocument document = new PDDocument()) {
      try (PdfPages pages = new PdfPages(document)) {
        new ComparisonPdf(comparison, pages).fill(document, still, moment);
        pages.foot(title + ", " + moment + ", " + software);
      }
      PdfArchive.mark(document, title, software, moment);
      document.save(out, CompressParameters.NO_COMPRESSION);
    }
  }

  private void fill(PDDocument document, BufferedImage still, Instant created) throws IOException {
    ComparisonSections sections = new ComparisonSections(comparison);
    pages.paragraph("Two revisions of a die", 10, PdfPages.FAINT, 0);
    pages.paragraph(comparison.a().fileName(), 18, PdfPages.INK, 0);
    pages.paragraph("and then " + comparison.b().fileName(), 14, PdfPages.INK, 0);
    pages.space(4);
    words(sections.lead());
    words(sections.keyFigures());
    pages.space(4);
    words(sections.inBrief());
    pages.space(8);
    pages.need(200);
    pages.picture(JPEGFactory.createFromImage(document, still, JPEG_QUALITY), HIGHEST_PICTURE);
    pages.space(3);
    pages.paragraph(
        "Both photographs laid on each other, in the frame of the earlier die. Dashed: where a"
            + " changed block was; solid: where it is.",
        8,
        PdfPages.FAINT,
        0);
    changes();
    totals();
    words(sections.registration());
    words(sections.difference());
    words(sections.certainty());
    words(sections.notices());
    words(sections.provenance(created));
    words(PageParts.cautions().replace("one photograph", "photographs"));
  }

  private void changes() throws IOException {
    pages.heading("Changes");
    if (comparison.changes().isEmpty()) {
      pages.paragraph("None.", PdfPages.TEXT, PdfPages.INK, 0);
      return;
    }
    List<PdfPages.Row> rows = new ArrayList<>();
    for (Change c : comparison.changes()) {
      Color swatch = c.b().outlines().isEmpty() ? ComparisonStill.EARLIER : ComparisonStill.LATER;
      rows.add(
          new PdfPages.Row(
              swatch,
              List.of(
                  c.id(),
                  ChangeWords.name(c.kind()),
                  c.sentence(),
                  ChangeWords.size(comparison, c),
                  ChangeWords.significance(c),
                  ChangeWords.confidence(c))));
    }
    pages.table(
        List.of(
            new PdfPages.Column("Change", 0.09f, false),
            new PdfPages.Column("Kind", 0.13f, false),
            new PdfPages.Column("What happened", 0.33f, false),
            new PdfPages.Column("Size (k = 1)", 0.2f, true),
            new PdfPages.Column("Significance", 0.13f, true),
            new PdfPages.Column("Confidence", 0.12f, true)),
        rows,
        SMALL);
  }

  private void totals() throws IOException {
    if (comparison.totals().isEmpty() && comparison.estimates().isEmpty()) {
      return;
    }
    pages.heading("In figures");
    quantities();
    estimates();
  }

  private void estimates() throws IOException {
    if (comparison.estimates().isEmpty()) {
      return;
    }
    List<PdfPages.Row> rows = new ArrayList<>();
    for (EstimateShift e : comparison.estimates()) {
      rows.add(
          ruled(
              ChangeWords.amountName(e),
              ChangeWords.span(e.a()).orElse("\u2013"),
              ChangeWords.span(e.b()).orElse("\u2013")));
    }
    pages.table(
        List.of(
            new PdfPages.Column("Estimate (95 %, same densities)", 0.32f, false),
            new PdfPages.Column("Earlier", 0.34f, true),
            new PdfPages.Column("Later", 0.34f, true)),
        rows,
        SMALL);
  }

  private void quantities() throws IOException {
    if (comparison.totals().isEmpty()) {
      return;
    }
    List<PdfPages.Row> rows = new ArrayList<>();
    for (QuantityShift q : comparison.totals()) {
      rows.add(
          ruled(
              DieWords.capital(q.name()),
              ChangeWords.quantity(q.a(), q.unit()),
              ChangeWords.quantity(q.b(), q.unit()),
              ChangeWords.difference(q.difference(), q.unit())));
    }
    pages.table(
        List.of(
            new PdfPages.Column("Quantity", 0.28f, false),
            new PdfPages.Column("Earlier", 0.24f, true),
            new PdfPages.Column("Later", 0.24f, true),
            new PdfPages.Column("Difference", 0.24f, true)),
        rows,
        SMALL);
  }

  private static PdfPages.Row ruled(String... cells) {
    return new PdfPages.Row(PdfPages.RULE, List.of(cells));
  }

  /** Tables within a part, folded away on the page, are left to the page. */
  private void words(String html) throws IOException {
    pages.words(html.replaceAll("(?s)<details>.*?</details>", ""));
  }
}
