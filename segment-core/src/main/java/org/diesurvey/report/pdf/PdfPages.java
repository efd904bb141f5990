package org.diesurvey.report.pdf;

import java.awt.Color;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/**
 * Sets text, pictures and tables on A4 pages from top to bottom, beginning a new page where one is
 * full. Lengths in points (1/72 inch).
 */
final class PdfPages implements AutoCloseable {
  static final Color INK = new Color(0x1C2430);
  static final Color FAINT = new Color(0x5A6472);
  static final Color RULE = new Color(0xC4CAD2);

  /** Size of running text. */
  static final float TEXT = 9.5f;

  private static final String FONT = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
  private static final float MARGIN = 48;
  private static final float FOOT = 54;
  private static final float LEADING = 1.35f;
  private static final float NO_GLYPH = -1;
  private static final float FACT_NAMES = 140;

  /** More characters than any line has: letters are at least 1.5 points wide. */
  private static final int LONGEST_LINE = 400;

  /** Lines shown of one cell, so that a row fits on a page. */
  private static final int MOST_CELL_LINES = 30;

  /** Tables up to this height are kept on one page. */
  private static final float SHORT_TABLE = 180;

  private final PDDocument document;
  private final PDType0Font font;
  private final Map<Character, Float> glyphWidths = new HashMap<>();
  private PDPageContentStream page;
  private float y;

  PdfPages(PDDocument document) throws IOException {
    this.document = document;
    try (InputStream in = PDDocument.class.getResourceAsStream(FONT)) {
      font = PDType0Font.load(document, in, true);
    }
    newPage();
  }

  static float width() {
    return PDRectangle.A4.getWidth() - 2 * MARGIN;
  }

  /** Height left on this page. */
  float left() {
    return y - FOOT;
  }

  void newPage() throws IOException {
    close();
    PDPage fresh = new PDPage(PDRectangle.A4);
    document.addPage(fresh);
    page = new PDPageContentStream(document, fresh);
    y = PDRectangle.A4.getHeight() - MARGIN;
  }

  /** Begins a new page unless so much height is left. */
  void need(float height) throws IOException {
    if (left() < height) {
      newPage();
    }
  }

  void space(float height) {
    y -= height;
  }

  /** A paragraph over the full width, indented by some points. */
  void paragraph(String text, float size, Color color, float indent) throws IOException {
    for (String line : lines(text, size, width() - indent)) {
      need(size * LEADING);
      y -= size * LEADING;
      show(line, MARGIN + indent, y, size, color);
    }
  }

  /** A name and its value side by side. */
  void fact(String name, String value, float size) throws IOException {
    List<String> names = lines(name, size, FACT_NAMES - 8);
    List<String> values = lines(value, size, width() - FACT_NAMES);
    need(Math.max(names.size(), values.size()) * size * LEADING);
    for (int i = 0; i < Math.max(names.size(), values.size()); i++) {
      y -= size * LEADING;
      if (i < names.size()) {
        show(names.get(i), MARGIN, y, size, FAINT);
      }
      if (i < values.size()) {
        show(values.get(i), MARGIN + FACT_NAMES, y, size, INK);
      }
    }
  }

  /** A sign in front of the next paragraph. */
  void bullet(float size) throws IOException {
    need(size * LEADING);
    show("\u2022", MARGIN + 2, y - size * LEADING, size, FAINT);
  }

  void picture(PDImageXObject image, float highest) throws IOException {
    float scale =
        Math.min(width() / image.getWidth(), Math.min(highest, left()) / image.getHeight());
    float w = image.getWidth() * scale;
    float h = image.getHeight() * scale;
    page.drawImage(image, MARGIN + (width() - w) / 2, y - h, w, h);
    y -= h;
  }

  /**
   * A column of a table.
   *
   * @param title heading
   * @param share of the width
   * @param right whether cells end at the right
   */
  record Column(String title, float share, boolean right) {}

  /**
   * A row of a table.
   *
   * @param swatch colour in front of the row
   * @param cells one for each column
   */
  record Row(Color swatch, List<String> cells) {
    Row {
      cells = List.copyOf(cells);
    }
  }

  void table(List<Column> columns, List<Row> rows, float size) throws IOException {
    float head = 2 * size * LEADING + 6;
    float all = head + rows.size() * (size * LEADING + 4);
    need(all <= SHORT_TABLE ? all : head + size * LEADING);
    heading(columns, size);
    for (Row row : rows) {
      List<List<String>> cells = new ArrayList<>();
      int most = 1;
      for (int i = 0; i < columns.size(); i++) {
        List<String> lines = shortened(lines(row.cells.get(i), size, cellWidth(columns, i)));
        cells.add(lines);
        most = Math.max(most, lines.size());
      }
      float height = most * size * LEADING + 3;
      if (left() < height) {
        newPage();
        heading(columns, size);
      }
      float x = MARGIN + 12;
      page.setNonStrokingColor(row.swatch);
      page.addRect(MARGIN, y - size * LEADING + 0.5f, 7, 7);
      page.fill();
      for (int i = 0; i < columns.size(); i++) {
        cell(cells.get(i), columns.get(i), x, cellWidth(columns, i), size, INK);
        x += columns.get(i).share * (width() - 12);
      }
      y -= height;
      rule();
    }
  }

  private static List<String> shortened(List<String> lines) {
    if (lines.size() <= MOST_CELL_LINES) {
      return lines;
    }
    List<String> some = new ArrayList<>(lines.subList(0, MOST_CELL_LINES - 1));
    some.add("...");
    return some;
  }

  private static float cellWidth(List<Column> columns, int i) {
    return columns.get(i).share * (width() - 12) - 6;
  }

  private void heading(List<Column> columns, float size) throws IOException {
    float x = MARGIN + 12;
    int most = 1;
    for (int i = 0; i < columns.size(); i++) {
      List<String> lines = lines(columns.get(i).title, size, cellWidth(columns, i));
      most = Math.max(most, lines.size());
      cell(lines, columns.get(i), x, cellWidth(columns, i), size, FAINT);
      x += columns.get(i).share * (width() - 12);
    }
    y -= most * size * LEADING + 3;
    rule();
  }

  private void cell(List<String> lines, Column c, float x, float wide, float size, Color color)
      throws IOException {
    float at = y;
    for (String line : lines) {
      at -= size * LEADING;
      show(line, c.right ? x + wide - measure(line, size) : x, at + 2, size, color);
    }
  }

  private void rule() throws IOException {
    page.setStrokingColor(RULE);
    page.setLineWidth(0.4f);
    page.moveTo(MARGIN, y);
    page.lineTo(MARGIN + width(), y);
    page.stroke();
    y -= 1;
  }

  private void show(String text, float x, float at, float size, Color color) throws IOException {
    page.beginText();
    page.setFont(font, size);
    page.setNonStrokingColor(color);
    page.newLineAtOffset(x, at);
    page.showText(text);
    page.endText();
  }

  /** Lines of at most a width; words longer than that are cut. */
  private List<String> lines(String text, float size, float wide) throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : printable(text).split(" ")) {
      String rest = word;
      String joined = line.isEmpty() ? rest : line + " " + rest;
      if (measure(joined, size) <= wide) {
        line.setLength(0);
        line.append(joined);
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line.toString());
        line.setLength(0);
      }
      while (rest.length() > LONGEST_LINE || measure(rest, size) > wide) {
        int n = fitting(rest, size, wide);
        lines.add(rest.substring(0, n));
        rest = rest.substring(n);
      }
      line.append(rest);
    }
    lines.add(line.toString());
    return lines;
  }

  /** How many characters of a word that is too long fit into a width, at least 1. */
  private int fitting(String word, float size, float wide) throws IOException {
    int fits = 1;
    int tooMany = Math.min(word.length(), LONGEST_LINE);
    while (tooMany - fits > 1) {
      int n = (fits + tooMany) / 2;
      if (measure(word.substring(0, n), size) > wide) {
        tooMany = n;
      } else {
        fits = n;
      }
    }
    return fits;
  }

  private float measure(String text, float size) throws IOException {
    float sum = 0;
    for (int i = 0; i < text.length(); i++) {
      sum += glyphWidth(text.charAt(i));
    }
    return sum / 1000 * size;
  }

  /** Width of a character in thousandths of the size; negative where the font lacks it. */
  private float glyphWidth(char c) throws IOException {
    Float known = glyphWidths.get(c);
    if (known == null) {
      known = NO_GLYPH;
      try {
        String text = Character.toString(c);
        known = font.encode(text).length > 0 ? font.getStringWidth(text) : NO_GLYPH;
      } catch (IllegalArgumentException e) {
        // How the font says that it lacks the character.
      }
      glyphWidths.put(c, known);
    }
    return known;
  }

  /** Characters that the font lacks, and those that show nothing, become question marks. */
  private String printable(String text) throws IOException {
    StringBuilder s = new StringBuilder();
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      int type = Character.getType(c);
      boolean shown =
          Character.charCount(c) == 1
              && type != Character.CONTROL
              && type != Character.FORMAT
              && type != Character.SURROGATE
              && glyphWidth((char) c) >= 0;
      s.append(shown ? (char) c : '?');
      i += Character.charCount(c);
    }
    return s.toString();
  }

  /** Writes a line at the foot of every page; ends the last one. */
  void foot(String text) throws IOException {
    close();
    int n = document.getNumberOfPages();
    String line = lines(text, 8, width() - 80).get(0);
    for (int i = 0; i < n; i++) {
      page =
          new PDPageContentStream(
              document, document.getPage(i), PDPageContentStream.AppendMode.APPEND, false);
      String number = "Page " + (i + 1) + " of " + n;
      show(line, MARGIN, 30, 8, FAINT);
      show(number, MARGIN + width() - measure(number, 8), 30, 8, FAINT);
      close();
    }
  }

  @Override
  public void close() throws IOException {
    if (page != null) {
      page.close();
      page = null;
    }
  }

  /** Heading of a part; a new page where it would stand alone at the foot. */
  void heading(String text) throws IOException {
    need(60);
    space(12);
    paragraph(text, 14, INK, 0);
    space(3);
  }

  /** A part of a page as plain text. */
  void words(String html) throws IOException {
    for (PlainBlocks.Block b : PlainBlocks.of(html)) {
      switch (b.kind()) {
        case HEADING -> heading(b.text());
        case SUBHEADING -> {
          need(40);
          space(6);
          paragraph(b.text(), 10.5f, INK, 0);
        }
        case PARAGRAPH -> {
          paragraph(b.text(), TEXT, INK, 0);
          space(4);
        }
        case ITEM -> {
          bullet(TEXT);
          paragraph(b.text(), TEXT, INK, 12);
          space(3);
        }
        case FACT -> fact(b.name(), b.text(), TEXT);
      }
    }
  }
}
