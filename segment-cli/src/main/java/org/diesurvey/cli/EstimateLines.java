package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BudgetLine;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.NodeLikelihood;
import org.diesurvey.report.text.Amounts;

/** The estimates of a survey for the console: amounts, what limits them, what fits the layout. */
final class EstimateLines {
  private static final String INDENT = " ".repeat(12);
  private static final int NODES = 4;

  private EstimateLines() {}

  static List<String> of(DieEstimates e) {
    List<String> lines = new ArrayList<>();
    Columns table = new Columns();
    table.row("estimate", "amount", "95 % interval", "in bytes", "largest cause");
    for (DieTotal t : e.totals()) {
      boolean bits = t.kind() == AmountKind.BITS;
      table.row(
          Amounts.unit(t.kind()),
          "about " + Amounts.count(t.amount().value()),
          Amounts.interval(t.amount()),
          bits
              ? plain(Amounts.bytes(t.amount().low()) + " to " + Amounts.bytes(t.amount().high()))
              : "\u2013",
          cause(t.budget()));
    }
    if (!e.totals().isEmpty()) {
      lines.addAll(table.lines(INDENT.length()));
      lines.add(INDENT + "estimates from areas; " + e.table() + ", version " + e.tableVersion());
    }
    for (DieTotal t : e.totals()) {
      for (String part : t.origin().split(" \\| ")) {
        if (t.kind() != AmountKind.TRANSISTORS) {
          lines.addAll(wrapped(Amounts.unit(t.kind()) + ": " + part + "."));
        }
      }
      if (!t.budget().isEmpty()) {
        lines.addAll(wrapped("To narrow it: " + t.budget().get(0).remedy()));
      }
    }
    if (!e.nodes().isEmpty()) {
      lines.addAll(
          wrapped(
              "nodes that fit the "
                  + String.join(" and the ", e.nodeEvidence())
                  + ": "
                  + e.nodes().stream()
                      .limit(NODES)
                      .map(EstimateLines::node)
                      .collect(Collectors.joining(", "))));
    }
    return lines;
  }

  private static String node(NodeLikelihood n) {
    return Figures.significant(n.nodeNm(), 3).replaceAll("\\.0+$", "")
        + " nm "
        + Figures.fixed(100 * n.likelihood(), 0)
        + " %";
  }

  private static String cause(List<BudgetLine> budget) {
    if (budget.isEmpty()) {
      return "as the logic";
    }
    BudgetLine b = budget.get(0);
    return b.factor().split(":")[0] + ", " + Figures.fixed(100 * b.share(), 0) + " %";
  }

  private static String plain(String text) {
    return text.replace('\u00a0', ' ');
  }

  private static List<String> wrapped(String text) {
    List<String> lines = new ArrayList<>();
    for (String l : SurveyTable.wrapped(text)) {
      lines.add(INDENT + (lines.isEmpty() ? "" : "  ") + l);
    }
    return lines;
  }
}
