package org.diesurvey.report.page;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ComparedDie;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.EstimateShift;
import org.diesurvey.comparison.document.QuantityShift;
import org.diesurvey.comparison.document.RegionMatch;
import org.diesurvey.comparison.document.Registration;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Notice;

/** The worded parts of a comparison. All methods return safe markup. */
public final class ComparisonSections {
  private static final String NONE = "\u2013";

  private final Comparison c;

  public ComparisonSections(Comparison comparison) {
    this.c = comparison;
  }

  public String title() {
    return c.a().fileName() + " and " + c.b().fileName();
  }

  public String lead() {
    return "<p class=\"lead\">From the earlier die to the later one: "
        + ChangeWords.counted(c)
        + ".</p>\n";
  }

  /** What a reader who cannot see it must know of the picture. */
  String pictureInWords() {
    return "The earlier die on the left, the later one on the right, laid on each other; "
        + ChangeWords.counted(c)
        + ".";
  }

  public String keyFigures() {
    Registration r = c.registration();
    StringBuilder s = new StringBuilder("<dl class=\"figures\">\n");
    fact(s, "Changes", Integer.toString(c.changes().size()));
    fact(
        s,
        "Structure that agrees",
        Quantities.percent(c.difference().same()) + " of the earlier die");
    fact(
        s,
        "Scatter of the registration",
        Quantities.significant(r.fit().residual(), 2) + " " + unit());
    return s + "</dl>\n";
  }

  public String inBrief() {
    StringBuilder s = new StringBuilder();
    for (Notice n : c.notices()) {
      s.append(s.isEmpty() ? "" : " ").append(Html.escape(n.sentence()));
    }
    return s.isEmpty() ? "" : "<p class=\"brief\">" + s + "</p>\n";
  }

  /** All changes; hidden where the page's program lists them beside the picture. */
  String changes() {
    if (c.changes().isEmpty()) {
      return "<section class=\"as-found\">\n<h2>Changes</h2>\n<p>None.</p>\n</section>\n";
    }
    HtmlTable table =
        new HtmlTable(
            "Changes, most significant first. After \u00b1 the standard uncertainty (k = 1);"
                + " significance is the size over it, confidence the probability that the place"
                + " changed in this way",
            List.of(
                HtmlTable.text("Change"),
                HtmlTable.text("Kind"),
                HtmlTable.text("What happened"),
                HtmlTable.number("Size"),
                HtmlTable.number("Significance"),
                HtmlTable.number("Confidence"),
                HtmlTable.text("Regions")));
    for (Change x : c.changes()) {
      table.row(
          Html.escape(x.id()),
          Html.escape(ChangeWords.name(x.kind())),
          Html.escape(x.sentence()),
          Html.escape(ChangeWords.size(c, x)),
          Html.escape(ChangeWords.significance(x)),
          Html.escape(ChangeWords.confidence(x)),
          Html.escape(regions(x.a().regions(), x.b().regions())));
    }
    return "<section class=\"as-found\">\n<h2>Changes</h2>\n" + table + "</section>\n";
  }

  static String regions(List<String> a, List<String> b) {
    String before = a.isEmpty() ? NONE : String.join(" ", a);
    String after = b.isEmpty() ? NONE : String.join(" ", b);
    return before + " \u2192 " + after;
  }

  public String registration() {
    Registration r = c.registration();
    StringBuilder s = new StringBuilder("<section>\n<h2>How the dies lie on each other</h2>\n<p>");
    s.append(Html.escape(r.method())).append("</p>\n<dl class=\"facts\">\n");
    fact(s, "The later die", r.orientation().label());
    fact(
        s,
        "Rotation besides",
        Quantities.fixed(Math.abs(r.parts().rotationDeg()), 3)
            + "\u00b0 "
            + (r.parts().rotationDeg() < 0 ? "clockwise" : "anticlockwise"));
    fact(
        s,
        "Length, later over earlier",
        Quantities.withUncertainty(r.parts().scaleRatio(), "").strip()
            + (r.parts().scaleConflict() ? "; the stated scales contradict each other" : ""));
    fact(s, "Shear", Quantities.fixed(r.parts().shearPercent(), 3) + "\u00a0%");
    fact(
        s,
        "Places compared",
        r.fit().places() + ", of which " + r.fit().agreeing() + " agree with the registration");
    fact(
        s,
        "Their scatter",
        Quantities.significant(r.fit().residual(), 2)
            + " "
            + unit()
            + " (standard deviation, one axis)");
    fact(
        s,
        "Uncertainty of a place",
        Quantities.significant(r.fit().uncertainty(), 2)
            + " "
            + unit()
            + " in the middle of the die (k\u00a0=\u00a01)");
    s.append("</dl>\n<details>\n<summary>Orientations tried</summary>\n");
    HtmlTable table =
        new HtmlTable(
            "Best agreement found for each orientation, best first",
            List.of(
                HtmlTable.text("Orientation"),
                HtmlTable.number("Agreement"),
                HtmlTable.number("Length ratio"),
                HtmlTable.text("Remark")));
    for (Registration.Trial t : r.tried()) {
      table.row(
          Html.escape(t.orientation().label()),
          Quantities.fixed(t.score(), 3),
          Quantities.fixed(t.scaleRatio(), 4),
          Html.escape(t.sentence().orElse(NONE)));
    }
    return s.append(table).append("</details>\n</section>\n").toString();
  }

  String totals() {
    HtmlTable table =
        new HtmlTable(
            "The earlier die, the later die and the difference; after \u00b1 the standard"
                + " uncertainty (k = 1)",
            List.of(
                HtmlTable.text("Quantity"),
                HtmlTable.number("Earlier"),
                HtmlTable.number("Later"),
                HtmlTable.number("Difference")));
    for (QuantityShift q : c.totals()) {
      table.row(
          Html.escape(DieWords.capital(q.name())),
          Html.escape(ChangeWords.quantity(q.a(), q.unit())),
          Html.escape(ChangeWords.quantity(q.b(), q.unit())),
          Html.escape(ChangeWords.difference(q.difference(), q.unit())));
    }
    String estimates = estimates();
    return c.totals().isEmpty() && estimates.isEmpty()
        ? ""
        : "<section>\n<h2>In figures</h2>\n"
            + (c.totals().isEmpty() ? "" : table)
            + estimates
            + "</section>\n";
  }

  private String estimates() {
    if (c.estimates().isEmpty()) {
      return "";
    }
    HtmlTable table =
        new HtmlTable(
            "Estimates: median and 95 % interval; both dies share the same densities",
            List.of(
                HtmlTable.text("Amount"), HtmlTable.number("Earlier"), HtmlTable.number("Later")));
    for (EstimateShift e : c.estimates()) {
      table.row(Html.escape(ChangeWords.amountName(e)), span(e.a()), span(e.b()));
    }
    return table.toString();
  }

  private static String span(Optional<EstimateShift.Span> span) {
    return ChangeWords.span(span).map(Html::escape).orElse(NONE);
  }

  String matches() {
    HtmlTable table =
        new HtmlTable(
            "Regions of the two surveys that stand for the same ground",
            List.of(
                HtmlTable.text("Earlier \u2192 later"),
                HtmlTable.text("Verdict"),
                HtmlTable.text("Change"),
                HtmlTable.number("Overlap"),
                HtmlTable.number("Structure"),
                HtmlTable.text("Remark")));
    for (RegionMatch m : c.matches()) {
      table.row(
          Html.escape(regions(m.regionsA(), m.regionsB())),
          Html.escape(m.verdict().id().replace('-', ' ')),
          Html.escape(m.change().orElse(NONE)),
          Quantities.percent(m.overlap()),
          m.similarity().map(v -> Quantities.fixed(v, 2)).orElse(NONE),
          Html.escape(m.note().isEmpty() ? NONE : m.note()));
    }
    long same =
        c.matches().stream().filter(m -> m.verdict() == RegionMatch.Verdict.UNCHANGED).count();
    return "<section>\n<h2>Regions</h2>\n<p>"
        + same
        + " of "
        + c.matches().size()
        + " matches are unchanged. Where the pictures agree and the two surveys do not, the die"
        + " has not changed: one of the surveys judged it otherwise.</p>\n"
        + "<details>\n<summary>All matches</summary>\n"
        + table
        + "</details>\n</section>\n";
  }

  public String difference() {
    StringBuilder s =
        new StringBuilder("<section>\n<h2>Structure, place by place</h2>\n")
            .append("<p>Squares of ")
            .append(Quantities.plain(c.difference().tile(), 3))
            .append(" ")
            .append(unit())
            .append(
                " of both pictures were compared by their structure, whatever the light, tint and"
                    + " focus. Shares are of the earlier die.</p>\n<dl class=\"facts\">\n");
    fact(s, "Agrees", Quantities.percent(c.difference().same()));
    fact(s, "Differs", Quantities.percent(c.difference().different()));
    fact(
        s,
        "Cannot be judged",
        Quantities.percent(c.difference().notJudged()) + ": too little structure, or hidden");
    fact(s, "Not on both photographs", Quantities.percent(c.difference().notCommon()));
    return s + "</dl>\n</section>\n";
  }

  public String certainty() {
    return """
    <section>
    <h2>How sure</h2>
    <p>The figure after \u00b1 is the standard uncertainty (k\u00a0=\u00a01): from the scale, from
    where the edges run, and from how the dies were laid on each other. <strong>Significance</strong>
    is the size of a change over it. Changes that do not stand out from the noise of photographs
    and surveys are not listed; that does not prove that there are none. Places with too little
    structure cannot be judged.</p>
    <p>Everything here is an estimate from two pictures: look at each change yourself.</p>
    </section>
    """;
  }

  public String notices() {
    return ReportNotes.notices(c.notices());
  }

  public String provenance(Instant created) {
    StringBuilder s = new StringBuilder("<section>\n<h2>Provenance</h2>\n");
    die(s, "Earlier", c.a());
    die(s, "Later", c.b());
    s.append("<h3>Comparison</h3>\n<dl class=\"facts\">\n");
    fact(s, "Software", "diesurvey " + c.softwareVersion());
    fact(s, "Created", created.toString());
    return s + "</dl>\n</section>\n";
  }

  private void die(StringBuilder s, String which, ComparedDie d) {
    s.append("<h3>").append(which).append("</h3>\n<dl class=\"facts\">\n");
    fact(s, "Photograph", d.fileName() + (d.dieNumber() > 1 ? ", die " + d.dieNumber() : ""));
    fact(s, "SHA-256 of the file", d.photoSha256());
    fact(s, "Scale", d.scale().map(ComparisonSections::scale).orElse("none"));
    if (d.widthMm().isPresent() && d.heightMm().isPresent()) {
      fact(
          s,
          d.wholeDie() ? "Die" : "Visible part of the die",
          Quantities.withUncertainty(d.widthMm().get(), "mm")
              + " by "
              + Quantities.withUncertainty(d.heightMm().get(), "mm"));
    }
    fact(s, "Rotation", DieWords.turn(d.rotationDeg()));
    fact(s, "Model", d.model());
    fact(s, "SHA-256 of the model", d.modelSha256());
    s.append("</dl>\n");
  }

  private static String scale(Calibration scale) {
    return Quantities.withUncertainty(scale.umPerPx(), "\u00b5m/px")
        + ", "
        + DieWords.origin(scale.origin());
  }

  private String unit() {
    return ChangeWords.unit(c);
  }

  private static void fact(StringBuilder s, String name, String value) {
    s.append("<div><dt>").append(Html.escape(name)).append("</dt><dd>");
    s.append(Html.escape(value)).append("</dd></div>\n");
  }
}
