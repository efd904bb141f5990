package org.diesurvey.archive.pages;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.report.page.Html;

/** The index of an archive: a row for each photograph, to be sorted and filtered in the browser. */
public final class IndexPage {
  static final String FILE = "index.html";

  /** How a figure is written. */
  private enum Form {
    PLAIN,
    SHARE,
    CONFIDENCE,
    AMOUNT
  }

  /**
   * A column of figures.
   *
   * @param title at its head
   * @param column of the view
   * @param with column of its standard uncertainty, or name of the estimate whose interval stands
   *     beside it; may be empty
   */
  private record Figure(String title, String column, Form form, String with) {}

  private static final List<Figure> FIGURES =
      List.of(
          new Figure("Node, nm", "node_nm", Form.PLAIN, ""),
          new Figure("Die, mm\u00b2", "die_area_mm2", Form.PLAIN, "u_die_area_mm2"),
          new Figure("Memory, mm\u00b2", "memory_area_mm2", Form.PLAIN, "u_memory_area_mm2"),
          new Figure("Memory", "memory_share", Form.SHARE, ""),
          new Figure("Macros", "macro_share", Form.SHARE, ""),
          new Figure("Logic", "logic_share", Form.SHARE, ""),
          new Figure("Pad ring", "pad_ring_share", Form.SHARE, ""),
          new Figure("Unclear", "unclear_share", Form.SHARE, ""),
          new Figure("Bits, about", "bits", Form.AMOUNT, "bits"),
          new Figure("Gates, about", "nand2_equivalents", Form.AMOUNT, "gates"),
          new Figure("Lowest confidence", "lowest_confidence", Form.CONFIDENCE, ""),
          new Figure("Warnings", "warnings", Form.PLAIN, ""));

  private static final String PHOTOS =
      "SELECT s.*,"
          + " (SELECT max(u_area_mm2) FROM class_total t WHERE t.photo_id ="
          + " s.photo_id AND class = 'memory array') AS u_memory_area_mm2,"
          + end("bits", "low", "bits")
          + ","
          + end("bits", "high", "bits")
          + ","
          + end("gates", "low", "nand2_equivalents")
          + ","
          + end("gates", "high", "nand2_equivalents")
          + " FROM surveyed_photo s ORDER BY file_name, path";

  /** One end of an estimate's interval as a column. */
  private static String end(String name, String end, String amount) {
    return " (SELECT "
        + end
        + " FROM estimate e WHERE e.photo_id = s.photo_id AND amount = '"
        + amount
        + "') AS "
        + name
        + "_"
        + end;
  }

  private IndexPage() {}

  public static String html(Path root) {
    ArchiveTable photos = ArchiveTable.read(root, PHOTOS, List.of());
    List<String> labels = LABELS.keySet().stream().filter(c -> isTold(photos, c)).toList();
    List<Figure> figures =
        FIGURES.stream()
            .filter(f -> rows(photos).anyMatch(i -> !Double.isNaN(photos.number(i, f.column))))
            .toList();
    StringBuilder page = new StringBuilder();
    page.append("<header>\n<p class=\"kind\">Archive of die surveys</p>\n<h1>")
        .append(photos.rows().size())
        .append(photos.rows().size() == 1 ? " photograph" : " photographs")
        .append("</h1>\n<p class=\"lead\">Open a report by its name. The <a href=\"")
        .append(BatchPages.REPORT)
        .append("\">summary</a> shows the spread over the dies and the photographs without a")
        .append(" survey; <a href=\"tables/\">tables</a> are CSV.</p>\n</header>\n<main>\n")
        .append("<p class=\"words\" hidden><label for=\"words\">Show rows with </label>")
        .append("<input id=\"words\" type=\"search\" placeholder=\"words, or memory > 40\">")
        .append(" <span id=\"count\" aria-live=\"polite\">")
        .append("</span></p>\n<div class=\"scroll\">\n<table class=\"photos\">\n<caption>Shares of")
        .append(" the die (of the photograph where no die edge was found). All values are")
        .append(" estimates.</caption>\n<thead><tr><th scope=\"col\">Picture</th>");
    head(page, "Photograph", false);
    labels.forEach(c -> head(page, LABELS.get(c), false));
    figures.forEach(f -> head(page, f.title, true));
    page.append("</tr></thead>\n<tbody>\n");
    for (int i = 0; i < photos.rows().size(); i++) {
      row(page, photos, i, labels, figures);
    }
    page.append("</tbody>\n</table>\n</div>\n</main>\n");
    return PageFrame.page(
        "Archive of die surveys", page.toString(), PageFrame.resource(IndexPage.class, "index.js"));
  }

  private static void head(StringBuilder page, String title, boolean figure) {
    page.append("<th scope=\"col\"").append(figure ? " class=\"n\"" : "");
    page.append("><button type=\"button\">").append(title).append("</button></th>");
  }

  /** Names of what the owner says of a photograph, by column. */
  private static final Map<String, String> LABELS = labels();

  private static Map<String, String> labels() {
    Map<String, String> out = new LinkedHashMap<>();
    out.put("die_name", "Die");
    out.put("revision", "Revision");
    out.put("layer", "Layer");
    return Collections.unmodifiableMap(out);
  }

  private static IntStream rows(ArchiveTable t) {
    return IntStream.range(0, t.rows().size());
  }

  /** A column in which nothing is told is not shown. */
  private static boolean isTold(ArchiveTable t, String column) {
    return rows(t).anyMatch(i -> !t.text(i, column).isEmpty());
  }

  private static void row(
      StringBuilder page, ArchiveTable t, int i, List<String> labels, List<Figure> figures) {
    String folder = "photos/" + Html.escape(t.text(i, "folder")) + "/";
    String link = "<a href=\"" + folder + SurveyFolder.REPORT + "\"";
    String name = Html.escape(t.text(i, "file_name"));
    page.append("<tr><td>").append(link).append(" tabindex=\"-1\" aria-hidden=\"true\">");
    page.append("<img loading=\"lazy\" alt=\"\" src=\"").append(folder);
    page.append(Thumbnails.FILE).append("\"></a></td>");
    page.append("<td data-v=\"").append(name).append("\">").append(link).append(">");
    page.append(name).append("</a></td>");
    for (String column : labels) {
      String text = Html.escape(t.text(i, column));
      page.append("<td data-v=\"").append(text).append("\">").append(text).append("</td>");
    }
    for (Figure f : figures) {
      double v = t.number(i, f.column);
      page.append("<td class=\"n\" data-v=\"").append(Double.isNaN(v) ? "" : v).append("\">");
      page.append(written(t, i, f, v)).append("</td>");
    }
    page.append("</tr>\n");
  }

  private static String written(ArchiveTable t, int i, Figure f, double v) {
    return switch (f.form) {
      case SHARE -> PageFrame.percent(v);
      case CONFIDENCE -> PageFrame.confidence(v);
      case AMOUNT ->
          PageFrame.amount(v, t.number(i, f.with + "_low"), t.number(i, f.with + "_high"));
      case PLAIN ->
          f.with.isEmpty() || Double.isNaN(v)
              ? plain(v)
              : PageFrame.measured(v, t.number(i, f.with));
    };
  }

  private static String plain(double v) {
    return v == Math.rint(v) && Math.abs(v) < 1e6 ? Long.toString((long) v) : PageFrame.number(v);
  }
}
