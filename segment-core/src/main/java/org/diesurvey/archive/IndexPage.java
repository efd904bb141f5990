package org.diesurvey.archive;

import java.nio.file.Path;
import java.util.List;
import org.diesurvey.report.Html;
import org.diesurvey.report.SurveyFolder;

/** The index of an archive: a row for each photograph, to be sorted and filtered in the browser. */
final class IndexPage {
  static final String FILE = "index.html";

  /** Columns of figures: title, column of the view, whether it is a share. */
  private record Figure(String title, String column, boolean share) {}

  private static final List<Figure> FIGURES =
      List.of(
          new Figure("Node, nm", "node_nm", false),
          new Figure("Die, mm\u00b2", "die_area_mm2", false),
          new Figure("Memory", "memory_share", true),
          new Figure("Macros", "macro_share", true),
          new Figure("Logic", "logic_share", true),
          new Figure("Pad ring", "pad_ring_share", true),
          new Figure("Unclear", "unclear_share", true),
          new Figure("Warnings", "warnings", false));

  private IndexPage() {}

  static String html(Path root) {
    ArchiveTable photos =
        ArchiveTable.read(root, "SELECT * FROM surveyed_photo ORDER BY file_name, path", List.of());
    StringBuilder page = new StringBuilder();
    page.append("<header>\n<p class=\"kind\">Archive of die surveys</p>\n<h1>")
        .append(photos.rows().size())
        .append(photos.rows().size() == 1 ? " photograph" : " photographs")
        .append("</h1>\n<p class=\"lead\">Open a report by its name. The <a href=\"")
        .append(BatchPages.REPORT)
        .append("\">summary</a> shows the spread over the dies and the photographs without a")
        .append(" survey; <a href=\"tables/\">tables</a> are CSV.</p>\n</header>\n<main>\n")
        .append("<p class=\"words\" hidden><label for=\"words\">Show rows with the words </label>")
        .append("<input id=\"words\" type=\"search\"> <span id=\"count\" aria-live=\"polite\">")
        .append("</span></p>\n<div class=\"scroll\">\n<table class=\"photos\">\n<caption>Shares of")
        .append(" the die (of the photograph where no die edge was found). All values are")
        .append(" estimates.</caption>\n<thead><tr><th scope=\"col\">Picture</th>");
    for (String title : List.of("Photograph", "Die", "Revision", "Layer")) {
      head(page, title, false);
    }
    FIGURES.forEach(f -> head(page, f.title, true));
    page.append("</tr></thead>\n<tbody>\n");
    for (int i = 0; i < photos.rows().size(); i++) {
      row(page, photos, i);
    }
    page.append("</tbody>\n</table>\n</div>\n</main>\n");
    return PageFrame.page(
        "Archive of die surveys", page.toString(), PageFrame.resource(IndexPage.class, "index.js"));
  }

  private static void head(StringBuilder page, String title, boolean figure) {
    page.append("<th scope=\"col\"").append(figure ? " class=\"n\"" : "");
    page.append("><button type=\"button\">").append(title).append("</button></th>");
  }

  private static void row(StringBuilder page, ArchiveTable t, int i) {
    String folder = "photos/" + Html.escape(t.text(i, "folder")) + "/";
    page.append("<tr><td><img loading=\"lazy\" alt=\"\" src=\"")
        .append(folder)
        .append(Thumbnails.FILE)
        .append("\"></td>");
    String name = Html.escape(t.text(i, "file_name"));
    page.append("<td data-v=\"").append(name).append("\"><a href=\"").append(folder);
    page.append(SurveyFolder.REPORT).append("\">").append(name).append("</a></td>");
    for (String column : List.of("die_name", "revision", "layer")) {
      String text = Html.escape(t.text(i, column));
      page.append("<td data-v=\"").append(text).append("\">").append(text).append("</td>");
    }
    for (Figure f : FIGURES) {
      double v = t.number(i, f.column);
      page.append("<td class=\"n\" data-v=\"").append(Double.isNaN(v) ? "" : v).append("\">");
      page.append(f.share ? PageFrame.percent(v) : plain(v)).append("</td>");
    }
    page.append("</tr>\n");
  }

  private static String plain(double v) {
    return v == Math.rint(v) && Math.abs(v) < 1e6 ? Long.toString((long) v) : PageFrame.number(v);
  }
}
