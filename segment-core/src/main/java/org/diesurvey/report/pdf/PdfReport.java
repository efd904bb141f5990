package org.diesurvey.report.pdf;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.diesurvey.report.page.PageParts;
import org.diesurvey.report.page.ReportNotes;
import org.diesurvey.report.page.ReportSections;
import org.diesurvey.report.pdf.PdfPages.Column;
import org.diesurvey.report.pdf.PdfPages.Row;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.InsideWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The report for archives: the words of the page, the picture, and the tables of totals and regions
 * on numbered A4 pages, as PDF/A-1b. The same survey, picture and moment give the same bytes on one
 * version of Java.
 */
public final class PdfReport {
  private static final float SMALL = 8.5f;
  private static final float HIGHEST_PICTURE = 385;
  private static final float JPEG_QUALITY = 0.85f;

  /** From so many on, damaged places share a row. */
  private static final int CROWD = 4;

  private static final String NONE = "\u2013";

  private final Survey survey;
  private final boolean scaled;
  private final PdfPages pages;

  private PdfReport(Survey survey, PdfPages pages) {
    this.survey = survey;
    this.pages = pages;
    scaled = survey.scale().calibration().isPresent();
  }

  /**
   * Writes the document.
   *
   * @param picture the regions on the photograph; the document says so where there is none
   * @param created moment to show and to mark the document with
   */
  public static void write(
      Survey survey, Optional<BufferedImage> picture, Instant created, OutputStream out)
      throws IOException {
    Instant moment = created.truncatedTo(ChronoUnit.SECONDS);
    String software =
        survey.method().software().name() + " " + survey.method().software().version();
    String title = "Die survey: " + survey.photo().fileName();
    try (PDDocument document = new PDDocument()) {
      try (PdfPages pages = new PdfPages(document)) {
        new PdfReport(survey, pages).fill(document, picture, moment);
        pages.foot(title + ", " + moment + ", " + software);
      }
      PdfArchive.mark(document, title, software, moment);
      document.save(out, CompressParameters.NO_COMPRESSION);
    }
  }

  private void fill(PDDocument document, Optional<BufferedImage> picture, Instant created)
      throws IOException {
    ReportSections sections = new ReportSections(survey);
    pages.paragraph("Die survey", 10, PdfPages.FAINT, 0);
    pages.paragraph(survey.photo().fileName(), 18, PdfPages.INK, 0);
    pages.space(4);
    pages.words(sections.lead());
    pages.words(sections.keyFigures());
    pages.space(4);
    pages.words(sections.inBrief());
    pages.space(8);
    if (picture.isPresent()) {
      pages.need(200);
      pages.picture(
          JPEGFactory.createFromImage(document, rgb(picture.get()), JPEG_QUALITY), HIGHEST_PICTURE);
      pages.space(3);
      pages.paragraph(
          "The photograph with the regions found. Solid outlines: regions; thin dashed lines:"
              + " bit-cell arrays inside a memory array"
              + (survey.die().edgeFound() ? "; white line: die edge." : "."),
          8,
          PdfPages.FAINT,
          0);
    } else {
      pages.paragraph(
          "The picture of the regions was not at hand when this document was made.",
          8,
          PdfPages.FAINT,
          0);
    }
    totals();
    regions();
    pages.words(ReportNotes.certainty(survey));
    pages.words(ReportNotes.notices(survey.notices()));
    pages.words(ReportNotes.provenance(survey, created));
    pages.words(PageParts.cautions());
  }

  /** Pictures with transparency are not allowed in PDF/A-1. */
  private static BufferedImage rgb(BufferedImage image) {
    BufferedImage plain =
        new BufferedImage(image.getWidth(), image.getHeight(), BufferedImage.TYPE_INT_RGB);
    var g = plain.createGraphics();
    g.drawImage(image, 0, 0, null);
    g.dispose();
    return plain;
  }

  private void totals() throws IOException {
    pages.heading("Area by class");
    List<Row> rows = new ArrayList<>();
    for (ClassTotal t : survey.totals()) {
      rows.add(
          new Row(
              ClassStyle.of(t.dieClass(), t.reason()).color(),
              List.of(
                  DieWords.plainName(t),
                  Integer.toString(t.regions()),
                  Quantities.withUncertainty(t.areaMm2(), "mm\u00b2"),
                  Quantities.percent(t.shareOfDie()))));
    }
    pages.table(
        List.of(
            new Column("Class", 0.34f, false),
            new Column("Regions", 0.14f, true),
            new Column(scaled ? "Area" : "Area (no scale)", 0.30f, true),
            new Column("Share of " + DieWords.whole(survey), 0.22f, true)),
        rows,
        SMALL);
    pages.space(3);
    pages.paragraph(
        "What is missing from 100\u00a0% are gaps between regions and specks too small to report.",
        8, PdfPages.FAINT, 0);
  }

  private void regions() throws IOException {
    pages.heading("Regions");
    List<Row> rows = new ArrayList<>();
    // A crowd of damaged places is one row; the totals say what each kind hides.
    List<SurveyRegion> damaged =
        survey.regions().stream().filter(r -> r.verdict().hidden()).toList();
    boolean crowd = damaged.size() >= CROWD;
    for (SurveyRegion r : survey.regions()) {
      if (crowd && damaged.contains(r)) {
        continue;
      }
      rows.add(
          new Row(
              ClassStyle.of(r.dieClass(), r.verdict().reason()).color(),
              List.of(
                  r.id(),
                  r.dieClass().label()
                      + r.verdict().reason().map(reason -> ": " + reason.label()).orElse(""),
                  r.areaMm2()
                      .map(a -> Quantities.withUncertainty(a, "mm\u00b2"))
                      .orElse(Quantities.squarePixels(r.area().px2())),
                  Quantities.percent(r.area().shareOfDie()),
                  r.verdict().unknown() ? NONE : Quantities.probability(r.confidence()),
                  inside(r))));
    }
    if (crowd) {
      for (ClassTotal t : survey.totals()) {
        if (t.hidden()) {
          rows.add(
              new Row(
                  ClassStyle.of(t.dieClass(), t.reason()).color(),
                  List.of(
                      t.regions() + (t.regions() == 1 ? " place" : " places"),
                      t.dieClass().label() + ": " + t.reason().orElseThrow().label(),
                      Quantities.withUncertainty(t.areaMm2(), "mm\u00b2"),
                      Quantities.percent(t.shareOfDie()),
                      NONE,
                      NONE)));
        }
      }
    }
    pages.table(
        List.of(
            new Column("Region", 0.10f, false),
            new Column("Class", 0.21f, false),
            new Column(scaled ? "Area (k = 1)" : "Area", 0.25f, true),
            new Column("Share", 0.11f, true),
            new Column("Confidence", 0.13f, true),
            new Column("Inside", 0.20f, true)),
        rows,
        SMALL);
  }

  private static String inside(SurveyRegion r) {
    return InsideWords.of(r).orElse(NONE);
  }
}
