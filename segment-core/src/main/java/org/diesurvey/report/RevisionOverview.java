package org.diesurvey.report;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.QuantityShift;
import org.diesurvey.report.page.Html;
import org.diesurvey.report.page.HtmlTable;
import org.diesurvey.report.page.PageParts;
import org.diesurvey.report.table.CsvTable;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;

/**
 * The page and table above the comparisons of more than two revisions.
 *
 * @param names of the revisions in order
 * @param steps comparisons of each with the next; empty where they could not be compared
 */
public record RevisionOverview(List<String> names, List<Optional<Comparison>> steps) {
  /** Stands in every such page. */
  static final String TITLE = "<title>Revisions of a die";

  public RevisionOverview {
    names = List.copyOf(names);
    steps = List.copyOf(steps);
  }

  /** The page; safe markup, no scripts. */
  public String html(Instant created) {
    String css = PageParts.comparisonStyles();
    StringBuilder s = new StringBuilder();
    s.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append(TITLE)
        .append(": ")
        .append(Html.escape(names.get(0)))
        .append(" to ")
        .append(Html.escape(names.get(names.size() - 1)))
        .append("</title>\n")
        .append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';")
        .append(" style-src ")
        .append(Html.hashSource(css))
        .append("; base-uri 'none'; form-action 'none'\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<meta name=\"color-scheme\" content=\"light dark\">\n<style>")
        .append(css)
        .append("</style>\n</head>\n<body>\n<header>\n<p class=\"kind\">Revisions of a die</p>\n")
        .append("<h1>")
        .append(names.size())
        .append(" revisions in order</h1>\n</header>\n<main>\n")
        .append(changes())
        .append(totals())
        .append("<p class=\"gaps\">Created ")
        .append(created.truncatedTo(ChronoUnit.SECONDS))
        .append(". All figures are estimates from pictures.</p>\n</main>\n</body>\n</html>\n");
    return s.toString();
  }

  private String changes() {
    List<HtmlTable.Column> columns = new ArrayList<>();
    columns.add(HtmlTable.text("Step"));
    columns.add(HtmlTable.text("From"));
    columns.add(HtmlTable.text("To"));
    for (ChangeKind kind : ChangeKind.values()) {
      columns.add(HtmlTable.number(DieWords.capital(ChangeWords.name(kind))));
    }
    HtmlTable table = new HtmlTable("Changes of each step, by kind", columns);
    for (int i = 0; i < steps.size(); i++) {
      String name = ComparisonFolder.stepName(i + 1);
      List<String> cells = new ArrayList<>();
      Optional<Comparison> step = steps.get(i);
      cells.add(
          step.isPresent()
              ? "<a href=\"" + name + "/" + ComparisonFolder.PAGE + "\">" + name + "</a>"
              : name);
      cells.add(Html.escape(names.get(i)));
      cells.add(Html.escape(names.get(i + 1)));
      for (ChangeKind kind : ChangeKind.values()) {
        cells.add(step.map(c -> Long.toString(ChangeWords.count(c, kind))).orElse("not compared"));
      }
      table.row(cells.toArray(new String[0]));
    }
    return "<section>\n<h2>Changes</h2>\n" + table + "</section>\n";
  }

  private String totals() {
    HtmlTable table =
        new HtmlTable(
            "Difference of each step; after \u00b1 the standard uncertainty (k = 1)",
            List.of(
                HtmlTable.text("Step"),
                HtmlTable.text("Quantity"),
                HtmlTable.number("Earlier"),
                HtmlTable.number("Later"),
                HtmlTable.number("Difference")));
    for (int i = 0; i < steps.size(); i++) {
      if (steps.get(i).isEmpty()) {
        continue;
      }
      for (QuantityShift q : steps.get(i).get().totals()) {
        table.row(
            ComparisonFolder.stepName(i + 1),
            Html.escape(DieWords.capital(q.name())),
            Html.escape(ChangeWords.quantity(q.a(), q.unit())),
            Html.escape(ChangeWords.quantity(q.b(), q.unit())),
            Html.escape(ChangeWords.difference(q.difference(), q.unit())));
      }
    }
    return "<section>\n<h2>In figures</h2>\n" + table + "</section>\n";
  }

  /** All changes, one line each, the step first. */
  public String csv() {
    CsvTable table = new CsvTable();
    table.header(
        "step",
        "earlier",
        "later",
        "id",
        "kind",
        "size_is",
        "size",
        "standard_uncertainty_size",
        "unit",
        "significance",
        "confidence",
        "sentence");
    for (int i = 0; i < steps.size(); i++) {
      if (steps.get(i).isEmpty()) {
        continue;
      }
      Comparison c = steps.get(i).get();
      for (Change x : c.changes()) {
        table.text(ComparisonFolder.stepName(i + 1)).text(names.get(i)).text(names.get(i + 1));
        table.text(x.id()).text(x.kind().id()).text(x.size().measure().id());
        table.number(Quantities.significant(x.size().amount().value(), 6));
        table.number(Quantities.significant(x.size().amount().standardUncertainty(), 3));
        table.text(c.unit().symbol() + (x.size().measure() == Change.Measure.DISTANCE ? "" : "2"));
        table.number(Quantities.significant(x.size().significance(), 4));
        table.number(Quantities.fixed(x.confidence(), 3)).text(x.sentence());
        table.end();
      }
    }
    return table.toString();
  }
}
