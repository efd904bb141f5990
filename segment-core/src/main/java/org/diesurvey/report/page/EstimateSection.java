package org.diesurvey.report.page;

import java.util.List;
import java.util.stream.Collectors;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BudgetLine;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.RegionEstimate;
import org.diesurvey.report.text.Amounts;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Survey;

/** Bits, gates and plausible nodes on the page. All methods return safe markup. */
final class EstimateSection {
  private static final String NONE = "\u2013";

  private EstimateSection() {}

  /** The whole section; empty for a survey without estimates. */
  static String html(Survey survey) {
    return survey.estimates().map(EstimateSection::section).orElse("");
  }

  private static String section(DieEstimates e) {
    StringBuilder s = new StringBuilder("<section id=\"estimates\">\n<h2>Bits and gates</h2>\n");
    s.append(
        """
        <p><strong>These are estimates</strong> from areas and reference densities, not counts. The
        interval is meant to hold the true amount in nineteen of twenty dies, given that the classes
        are right. It is not symmetric. Scale, densities and efficiencies are common to the whole
        die, so they do not average out in the totals.</p>
        """);
    if (e.totals().isEmpty()) {
      s.append("<p>Nothing could be estimated; the reasons stand under the warnings.</p>\n");
    } else {
      s.append(totals(e));
      e.totals().stream().filter(t -> !t.budget().isEmpty()).forEach(t -> s.append(budget(t)));
      s.append(regions(e.regions()));
    }
    s.append(nodes(e));
    s.append("<p>Densities: ")
        .append(Html.escape(e.table() + ", version " + e.tableVersion()))
        .append(". Propagation: Monte Carlo after JCGM 101:2008, ")
        .append(String.format(java.util.Locale.ROOT, "%,d", e.draws()))
        .append(" draws, log-normal factors.</p>\n");
    return s + "</section>\n";
  }

  private static String totals(DieEstimates e) {
    HtmlTable table =
        new HtmlTable(
            "Estimated amounts of the die",
            List.of(
                HtmlTable.text("Amount"),
                HtmlTable.number("Median"),
                HtmlTable.number("95 % interval"),
                HtmlTable.number("In bytes"),
                HtmlTable.text("Rests on")));
    for (DieTotal t : e.totals()) {
      boolean bits = t.kind() == AmountKind.BITS;
      table.row(
          Html.escape(DieWords.capital(Amounts.unit(t.kind()))),
          Html.escape("about " + Amounts.count(t.amount().value())),
          Html.escape(Amounts.interval(t.amount())),
          bits
              ? Html.escape(
                  Amounts.bytes(t.amount().low()) + " to " + Amounts.bytes(t.amount().high()))
              : NONE,
          Html.escape(t.origin()).replace(" | ", "<br>"));
    }
    return table.toString();
  }

  private static String budget(DieTotal t) {
    HtmlTable table =
        new HtmlTable(
            "What makes the " + Amounts.unit(t.kind()) + " uncertain, largest cause first",
            List.of(
                HtmlTable.text("Cause"),
                HtmlTable.number("Standard uncertainty"),
                HtmlTable.number("Share of variance"),
                HtmlTable.text("What it is, and what would shrink it")));
    for (BudgetLine b : t.budget()) {
      String[] words = b.factor().split(": ", 2);
      table.row(
          Html.escape(DieWords.capital(words[0])),
          Html.escape(Quantities.percent(b.relative())),
          Html.escape(Quantities.percent(b.share())),
          Html.escape((words.length > 1 ? DieWords.capital(words[1]) + ". " : "") + b.remedy()));
    }
    return table.toString();
  }

  private static String regions(List<RegionEstimate> regions) {
    HtmlTable table =
        new HtmlTable(
            "Estimates by region",
            List.of(
                HtmlTable.text("Region"),
                HtmlTable.number("Median"),
                HtmlTable.number("95 % interval"),
                HtmlTable.text("Amount of"),
                HtmlTable.text("Organisations near the median (hints only)")));
    for (RegionEstimate r : regions) {
      table.row(
          Html.escape(r.id()),
          Html.escape("about " + Amounts.count(r.amount().value())),
          Html.escape(Amounts.interval(r.amount())),
          Html.escape(Amounts.unit(r.kind())),
          r.hints().isEmpty()
              ? NONE
              : r.hints().stream().map(Html::escape).collect(Collectors.joining("; ")));
    }
    return table.toString();
  }

  private static String nodes(DieEstimates e) {
    if (e.nodes().isEmpty()) {
      return "<p>No process node is suggested: "
          + (e.nodeEvidence().isEmpty()
              ? "neither a bit-cell lattice nor cell rows are resolved.</p>\n"
              : "none of the density table fits the "
                  + Html.escape(String.join(" and the ", e.nodeEvidence()))
                  + ".</p>\n");
    }
    return "<p><strong>Process nodes that fit</strong> the "
        + Html.escape(String.join(" and the ", e.nodeEvidence()))
        + ", all nodes of the table equal beforehand: "
        + e.nodes().stream()
            .map(
                n ->
                    Html.escape(
                        Quantities.plain(n.nodeNm(), 4)
                            + " nm "
                            + Quantities.probability(n.likelihood())))
            .collect(Collectors.joining(", "))
        + ". Neighbouring nodes overlap: read this as a range, not as a finding.</p>\n";
  }
}
