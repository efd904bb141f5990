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

/** A summary over several surveys as PDF/A-1b: words, tables and one picture on A4 pages. */
public final class SummaryPdf {
  private static final float TEXT = 9.5f;
  private static final float SMALL = 8;
  private static final float HIGHEST_PICTURE = 640;
  private static final float JPEG_QUALITY = 0.85f;

  private SummaryPdf() {}

  /**
   * A headed table.
   *
   * @param heading above it
   * @param text sentence below the heading; may be empty
   * @param columns titles; the first column is as wide as the others together
   * @param rows one text for each column
   */
  public record Part(String heading, String text, List<String> columns, List<List<String>> rows) {
    /** Copies the lists. */
    public Part {
      columns = List.copyOf(columns);
      rows = List.copyOf(rows);
    }
  }

  /**
   * Writes the document.
   *
   * @param title of the document
   * @param lead first paragraph
   * @param parts tables in order; those without rows show their text only
   * @param sheet picture at the end
   * @param sheetText what stands below it
   * @param software name and version of what made it
   * @param created moment to mark the document with
   */
  public static void write(
      String title,
      String lead,
      List<Part> parts,
      Optional<BufferedImage> sheet,
      String sheetText,
      String software,
      Instant created,
      OutputStream out)
      throws IOException {
    Instant moment = created.truncatedTo(ChronoUnit.SECONDS);
    try (PDDocument document = new PDDocument()) {
      try (PdfPages pages = new PdfPages(document)) {
        pages.paragraph(title, 18, PdfPages.INK, 0);
        pages.space(4);
        pages.paragraph(lead, TEXT, PdfPages.INK, 0);
        for (Part part : parts) {
          part(pages, part);
        }
        if (sheet.isPresent()) {
          pages.newPage();
          pages.picture(
              JPEGFactory.createFromImage(document, sheet.get(), JPEG_QUALITY), HIGHEST_PICTURE);
          pages.space(4);
          pages.paragraph(sheetText, SMALL, PdfPages.INK, 0);
        }
        pages.foot(title + ", " + moment + ", " + software);
      }
      PdfArchive.mark(document, title, software, moment);
      document.save(out, CompressParameters.NO_COMPRESSION);
    }
  }

  private static void part(PdfPages pages, Part part) throws IOException {
    pages.need(70);
    pages.space(12);
    pages.paragraph(part.heading, 13, PdfPages.INK, 0);
    pages.space(3);
    if (!part.text.isEmpty()) {
      pages.paragraph(part.text, TEXT, PdfPages.INK, 0);
    }
    if (part.rows.isEmpty()) {
      return;
    }
    List<PdfPages.Column> columns = new ArrayList<>();
    for (int i = 0; i < part.columns.size(); i++) {
      float share = part.columns.size() == 1 ? 1 : i == 0 ? 0.5f : 0.5f / (part.columns.size() - 1);
      columns.add(new PdfPages.Column(part.columns.get(i), share, false));
    }
    List<PdfPages.Row> rows =
        part.rows.stream().map(cells -> new PdfPages.Row(PdfPages.RULE, cells)).toList();
    pages.table(columns, rows, SMALL);
  }
}
