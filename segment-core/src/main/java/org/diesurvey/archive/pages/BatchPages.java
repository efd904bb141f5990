package org.diesurvey.archive.pages;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.files.Disk;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.report.page.Html;
import org.diesurvey.report.pdf.SummaryPdf;

/** The summary over the dies of an archive, as a page and as PDF. */
final class BatchPages {
  static final String REPORT = "summary.html";
  static final String REPORT_PDF = "summary.pdf";

  private static final int ON_SHEET = 60;
  private static final String PHOTOS = "SELECT * FROM surveyed_photo ORDER BY file_name, path";
  private static final int SHEET_COLUMNS = 6;
  private static final int SHEET_CELL_PX = 250;
  private static final int WIDTH = 640;

  private static final Map<String, String> SHARES = shares();

  private final Path root;
  private final ArchiveTable photos;
  private final ArchiveTable lost;
  private final Map<String, Spread> spreads = new LinkedHashMap<>();

  private BatchPages(Path root) {
    this.root = root;
    photos = ArchiveTable.read(root, PHOTOS, List.of());
    lost = ArchiveTable.read(root, "SELECT * FROM not_surveyed ORDER BY path", List.of());
    if (!photos.rows().isEmpty()) {
      SHARES.forEach((column, title) -> spreads.put(column, Spread.of(values(column))));
    }
  }

  private static Map<String, String> shares() {
    Map<String, String> s = new LinkedHashMap<>();
    s.put("memory_share", "Memory arrays");
    s.put("macro_share", "Hard macros");
    s.put("logic_share", "Logic");
    s.put("pad_ring_share", "Pad ring");
    s.put("unclear_share", "Unclear");
    return s;
  }

  static void write(Path root, Path to, Instant created) throws IOException {
    BatchPages pages = new BatchPages(root);
    Disk.write(to.resolve(REPORT), pages.html().getBytes(StandardCharsets.UTF_8));
    Disk.write(to.resolve(REPORT_PDF), pages.pdf(created));
  }

  private double[] values(String column) {
    double[] v = new double[photos.rows().size()];
    for (int i = 0; i < v.length; i++) {
      v[i] = photos.number(i, column);
    }
    return v;
  }

  private String lead() {
    int surveyed = photos.rows().size();
    int none = lost.rows().size();
    return surveyed
        + (surveyed == 1 ? " photograph has a survey, " : " photographs have a survey, ")
        + none
        + (none == 1 ? " has none" : " have none")
        + ". Shares are of the die, or of the photograph where no die edge was found. All"
        + " values are estimates from pictures.";
  }

  private List<List<String>> outliers() {
    List<List<String>> rows = new ArrayList<>();
    spreads.forEach(
        (column, s) ->
            s.outliers()
                .forEach(
                    i ->
                        rows.add(
                            List.of(
                                photos.text(i, "file_name"),
                                SHARES.get(column),
                                PageFrame.percent(photos.number(i, column)),
                                PageFrame.percent(s.median())))));
    return rows;
  }

  /** Where the survey of each outlier lies, in the order of their rows. */
  private List<String> outlierLinks() {
    List<String> links = new ArrayList<>();
    spreads.values().forEach(s -> s.outliers().forEach(i -> links.add(report(i))));
    return links;
  }

  private String report(int photo) {
    return folder(photo) + SurveyFolder.REPORT;
  }

  private String folder(int photo) {
    return "photos/" + photos.text(photo, "folder") + "/";
  }

  private List<List<String>> spreadRows() {
    List<List<String>> rows = new ArrayList<>();
    spreads.forEach(
        (column, s) ->
            rows.add(
                List.of(
                    SHARES.get(column),
                    PageFrame.percent(s.lowest()),
                    PageFrame.percent(s.median()),
                    PageFrame.percent(s.highest()))));
    return rows;
  }

  private List<List<String>> lostRows() {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < lost.rows().size(); i++) {
      rows.add(
          List.of(
              lost.text(i, "path"),
              lost.text(i, "outcome") + ": " + words(lost.text(i, "reason")),
              lost.text(i, "sentence")));
    }
    return rows;
  }

  private static String words(String reason) {
    return reason.toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private String html() {
    StringBuilder page = new StringBuilder();
    page.append(
            "<header>\n<p class=\"kind\">Archive of die surveys</p>\n<h1>Summary over dies</h1>")
        .append("\n<p class=\"lead\">")
        .append(Html.escape(lead()))
        .append(" <a href=\"")
        .append(IndexPage.FILE)
        .append("\">Back to the index.</a></p>\n</header>\n<main>\n<h2>Spread of shares</h2>\n");
    if (!spreads.isEmpty()) {
      page.append(picture());
    }
    table(page, "Lowest, median, highest", SPREAD_COLUMNS, spreadRows(), List.of());
    page.append("<h2>Outliers</h2>\n<p>").append(Html.escape(outlierText())).append("</p>\n");
    table(page, "Outliers", OUTLIER_COLUMNS, outliers(), outlierLinks());
    page.append("<h2>Photographs without a survey</h2>\n");
    table(page, "Without a survey", LOST_COLUMNS, lostRows(), List.of());
    page.append("<h2>Contact sheet</h2>\n<div class=\"sheet\">\n");
    for (int i = 0; i < photos.rows().size(); i++) {
      String folder = Html.escape(folder(i));
      String name = Html.escape(photos.text(i, "file_name"));
      page.append("<figure><a href=\"").append(folder).append(SurveyFolder.REPORT);
      page.append("\"><img loading=\"lazy\" alt=\"\" src=\"").append(folder);
      page.append(Thumbnails.FILE).append("\"></a><figcaption>").append(name);
      page.append("</figcaption></figure>\n");
    }
    page.append("</div>\n</main>\n");
    return PageFrame.page("Summary over dies", page.toString(), "");
  }

  private static final List<String> SPREAD_COLUMNS =
      List.of("Class", "Lowest", "Median", "Highest");
  private static final List<String> OUTLIER_COLUMNS =
      List.of("Photograph", "Class", "Share", "Median of all");
  private static final List<String> LOST_COLUMNS = List.of("File", "Why", "In words");

  private String outlierText() {
    return "Shares more than 3.5 robust standard deviations, and more than one percentage point,"
        + " from the median of all photographs; looked for among five or more. An outlier may be"
        + " another die, another preparation, or a mistake: look at it.";
  }

  /** One row of dots for each class, from 0 to 100 %. */
  private String picture() {
    StringBuilder svg = new StringBuilder();
    int high = 34 * SHARES.size() + 24;
    svg.append("<svg class=\"spread\" role=\"img\" aria-label=\"Shares of every photograph by")
        .append(" class; the table below has the figures\" viewBox=\"0 0 ")
        .append(WIDTH + 150)
        .append(' ')
        .append(high)
        .append("\">\n");
    int row = 0;
    for (var share : SHARES.entrySet()) {
      int y = 22 + 34 * row++;
      svg.append("<text x=\"0\" y=\"").append(y + 4).append("\">").append(share.getValue());
      svg.append("</text><line x1=\"120\" x2=\"").append(120 + WIDTH).append("\" y1=\"");
      svg.append(y).append("\" y2=\"").append(y).append("\"/>\n");
      double[] each = values(share.getKey());
      for (int i = 0; i < each.length; i++) {
        svg.append(
            String.format(
                Locale.ROOT,
                "<a href=\"%s\"><circle cx=\"%.1f\" cy=\"%d\" r=\"5\"><title>%s,"
                    + " %s</title></circle></a>",
                Html.escape(report(i)),
                120 + WIDTH * each[i],
                y,
                Html.escape(photos.text(i, "file_name")),
                PageFrame.percent(each[i])));
      }
      double median = 120 + WIDTH * spreads.get(share.getKey()).median();
      svg.append(
          String.format(
              Locale.ROOT,
              "<line stroke-width=\"2\" x1=\"%.1f\" x2=\"%.1f\" y1=\"%d\" y2=\"%d\"/>\n",
              median,
              median,
              y - 11,
              y + 11));
    }
    svg.append("<text x=\"120\" y=\"").append(high - 4).append("\">0 %</text><text x=\"");
    svg.append(120 + WIDTH).append("\" y=\"").append(high - 4);
    return svg.append("\" text-anchor=\"end\">100 %</text>\n</svg>\n").toString();
  }

  /**
   * @param links where the first cell of each row leads; empty without links
   */
  private static void table(
      StringBuilder page,
      String caption,
      List<String> columns,
      List<List<String>> rows,
      List<String> links) {
    if (rows.isEmpty()) {
      page.append("<p>None.</p>\n");
      return;
    }
    page.append("<div class=\"scroll\"><table><caption>").append(caption).append("</caption>");
    page.append("<thead><tr>");
    columns.forEach(c -> page.append("<th scope=\"col\">").append(c).append("</th>"));
    page.append("</tr></thead>\n<tbody>\n");
    for (int r = 0; r < rows.size(); r++) {
      page.append("<tr>");
      for (int c = 0; c < rows.get(r).size(); c++) {
        String text = Html.escape(rows.get(r).get(c));
        boolean linked = c == 0 && !links.isEmpty();
        page.append("<td>")
            .append(
                linked ? "<a href=\"" + Html.escape(links.get(r)) + "\">" + text + "</a>" : text)
            .append("</td>");
      }
      page.append("</tr>\n");
    }
    page.append("</tbody></table></div>\n");
  }

  private byte[] pdf(Instant created) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    SummaryPdf.write(
        "Summary over dies",
        lead(),
        List.of(
            new SummaryPdf.Part("Spread of shares", "", SPREAD_COLUMNS, spreadRows()),
            new SummaryPdf.Part("Outliers", outlierText(), OUTLIER_COLUMNS, outliers()),
            new SummaryPdf.Part(
                "Photographs without a survey",
                lost.rows().isEmpty() ? "None." : "",
                LOST_COLUMNS,
                lostRows())),
        sheet(),
        sheetText(),
        "Diesurvey",
        created,
        bytes);
    return bytes.toByteArray();
  }

  private String sheetText() {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < Math.min(ON_SHEET, photos.rows().size()); i++) {
      names.add(photos.text(i, "file_name"));
    }
    int more = photos.rows().size() - names.size();
    return "Contact sheet, in rows of "
        + SHEET_COLUMNS
        + ": "
        + String.join(", ", names)
        + (more == 0 ? "." : "; " + more + " more are in the index.");
  }

  /** The small pictures that are in the summary, seen from the archive. */
  static List<String> onSheet(Path root) {
    ArchiveTable all = ArchiveTable.read(root, PHOTOS + " LIMIT " + ON_SHEET, List.of());
    return all.rows().stream()
        .map(row -> row.get(all.columns().indexOf("folder")).toString())
        .map(name -> ArchiveFolder.PHOTOS + "/" + name + "/" + Thumbnails.FILE)
        .toList();
  }

  /** The first small pictures side by side. */
  private Optional<BufferedImage> sheet() throws IOException {
    int n = Math.min(ON_SHEET, photos.rows().size());
    if (n == 0) {
      return Optional.empty();
    }
    int rows = (n + SHEET_COLUMNS - 1) / SHEET_COLUMNS;
    BufferedImage sheet =
        new BufferedImage(
            SHEET_COLUMNS * SHEET_CELL_PX, rows * SHEET_CELL_PX, BufferedImage.TYPE_INT_RGB);
    var g = sheet.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, sheet.getWidth(), sheet.getHeight());
    for (int i = 0; i < n; i++) {
      Path file =
          root.resolve(ArchiveFolder.PHOTOS)
              .resolve(photos.text(i, "folder"))
              .resolve(Thumbnails.FILE);
      BufferedImage small = Files.isRegularFile(file) ? ImageIO.read(file.toFile()) : null;
      if (small != null) {
        g.drawImage(
            small,
            i % SHEET_COLUMNS * SHEET_CELL_PX + 5,
            i / SHEET_COLUMNS * SHEET_CELL_PX + 5,
            null);
      }
    }
    g.dispose();
    return Optional.of(sheet);
  }
}
