package org.diesurvey.report.page;

import java.util.List;

/** A table with a caption and header cells that a screen reader can use. */
public final class HtmlTable {
  private final StringBuilder html = new StringBuilder();
  private final List<Column> columns;

  /**
   * @param title header text
   * @param number whether the cells are figures, set to the right
   */
  public record Column(String title, boolean number) {}

  public static Column text(String title) {
    return new Column(title, false);
  }

  public static Column number(String title) {
    return new Column(title, true);
  }

  public HtmlTable(String caption, List<Column> columns) {
    this.columns = columns;
    html.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"")
        .append(Html.escape(caption))
        .append("\">\n<table>\n<caption>")
        .append(Html.escape(caption))
        .append("</caption>\n<thead><tr>");
    for (Column c : columns) {
      html.append("<th scope=\"col\"").append(mark(c)).append('>');
      html.append(Html.escape(c.title)).append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
  }

  private static String mark(Column c) {
    return c.number ? " class=\"n\"" : "";
  }

  /** Adds a row of markup that is already safe; the first cell is the row's header. */
  public void row(String... cells) {
    html.append("<tr>");
    for (int i = 0; i < cells.length; i++) {
      String tag = i == 0 ? "th" : "td";
      html.append('<').append(tag).append(i == 0 ? " scope=\"row\"" : "");
      html.append(mark(columns.get(i))).append('>').append(cells[i]);
      html.append("</").append(tag).append('>');
    }
    html.append("</tr>\n");
  }

  @Override
  public String toString() {
    return html + "</tbody>\n</table>\n</div>\n";
  }
}
