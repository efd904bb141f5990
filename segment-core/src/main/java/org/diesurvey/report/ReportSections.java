package org.diesurvey.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** The parts of the page that show what was found. All methods return safe markup. */
final class ReportSections {
  private static final String MM2 = "mm\u00b2";
  private static final String NONE = "\u2013";

  private final Survey survey;
  private final boolean scaled;

  ReportSections(Survey survey) {
    this.survey = survey;
    scaled = survey.scale().calibration().isPresent();
  }

  /** The result in a sentence, and the refusal of areas where there is no scale. */
  String lead() {
    StringBuilder s = new StringBuilder("<p class=\"lead\">");
    s.append(Html.escape(DieWords.capital(resultInASentence()))).append("</p>\n");
    if (!scaled) {
      s.append("<p class=\"refusal\"><strong>Areas in mm\u00b2 are refused</strong>, because the");
      s.append(" photograph has no scale: lengths are in px and areas in square pixels. ");
      survey
          .scale()
          .inferred()
          .ifPresent(
              r ->
                  s.append("The layout itself suggests a pixel pitch between ")
                      .append(Quantities.significant(r.lowUmPerPx(), 2))
                      .append(" and ")
                      .append(Quantities.significant(r.highUmPerPx(), 2))
                      .append("\u00a0\u00b5m/px (")
                      .append(Html.escape(r.evidence().replaceAll("\\.$", "")))
                      .append("); this guess was not used for any figure. "));
      s.append("State the pitch or give a calibration file to get areas.</p>\n");
    }
    return s.toString();
  }

  private String resultInASentence() {
    List<String> classes = new ArrayList<>();
    List<String> rest = new ArrayList<>();
    for (ClassTotal t : survey.totals()) {
      if (t.dieClass() == DieClass.UNCLEAR) {
        rest.add(amountWithShare(t) + " is " + t.reason().orElse("unclear"));
      } else {
        String verb = classes.isEmpty() ? (t.regions() > 1 ? " cover " : " covers ") : " ";
        classes.add(DieWords.subject(t) + verb + amountWithShare(t));
      }
    }
    if (classes.isEmpty()) {
      classes.add("no region of any class was found");
    }
    rest.add(0, joined(classes));
    return where() + ", " + String.join("; ", rest) + ".";
  }

  private String where() {
    DieFrame die = survey.die();
    String px = survey.photo().widthPx() + " \u00d7 " + survey.photo().heightPx() + "\u00a0px";
    if (die.widthMm().isEmpty() || die.heightMm().isEmpty()) {
      return die.edgeFound()
          ? "on the die in this photograph of " + px
          : "in this photograph of " + px + ", which shows no die edge";
    }
    String mm =
        Quantities.significant(die.widthMm().get().value(), 4)
            + " \u00d7 "
            + Quantities.significant(die.heightMm().get().value(), 4)
            + "\u00a0mm";
    return die.edgeFound()
        ? "on this die of " + mm
        : "in this field of " + mm + ", which shows no die edge";
  }

  private static String joined(List<String> parts) {
    int last = parts.size() - 1;
    return last == 0
        ? parts.get(0)
        : String.join(", ", parts.subList(0, last)) + " and " + parts.get(last);
  }

  private static String amountWithShare(ClassTotal t) {
    String share = Quantities.percent(t.shareOfDie());
    return t.areaMm2()
        .map(a -> Quantities.significant(a.value(), 3) + "\u00a0" + MM2 + " (" + share + ")")
        .orElse(share);
  }

  String keyFigures() {
    DieFrame die = survey.die();
    StringBuilder s = new StringBuilder("<dl class=\"figures\">\n");
    String what = die.edgeFound() ? "Die" : "Field";
    die.widthMm().ifPresent(m -> figure(s, what + " width", Quantities.withUncertainty(m, "mm")));
    die.heightMm().ifPresent(m -> figure(s, what + " height", Quantities.withUncertainty(m, "mm")));
    figure(
        s,
        what + " area",
        die.areaMm2()
            .map(m -> Quantities.withUncertainty(m, MM2))
            .orElse(Quantities.squarePixels(die.areaPx())));
    figure(s, "Regions", Integer.toString(survey.regions().size()));
    figure(
        s,
        "Pixel pitch",
        survey
            .scale()
            .calibration()
            .map(c -> Quantities.withUncertainty(c.umPerPx(), "\u00b5m/px"))
            .orElse("not known"));
    survey
        .nodeNm()
        .ifPresent(n -> figure(s, "Process node, as stated", Quantities.plain(n, 4) + " nm"));
    return s + "</dl>\n";
  }

  private static void figure(StringBuilder s, String name, String value) {
    s.append("<div><dt>").append(name).append("</dt><dd>");
    s.append(Html.escape(value)).append("</dd></div>\n");
  }

  /** A line that sends the reader to the warnings. */
  String noticesInBrief() {
    int n = survey.notices().size();
    return n == 0
        ? ""
        : "<p class=\"brief\"><a href=\"#warnings\">"
            + n
            + (n == 1 ? " warning" : " warnings")
            + " to know before using these figures</a></p>\n";
  }

  /** The picture for those who do not see it. */
  String pictureInWords() {
    return "Photograph of the die with "
        + survey.regions().size()
        + " regions outlined: "
        + survey.totals().stream()
            .map(t -> DieWords.subject(t) + " " + Quantities.percent(t.shareOfDie()))
            .collect(Collectors.joining(", "));
  }

  String shares() {
    HtmlTable table =
        new HtmlTable(
            "Class totals",
            List.of(
                HtmlTable.text("Class"),
                HtmlTable.number("Regions"),
                HtmlTable.number(scaled ? "Area" : "Area (no scale)"),
                HtmlTable.number("Share of die")));
    for (ClassTotal t : survey.totals()) {
      table.row(
          ShareChart.swatch(ClassStyle.of(t.dieClass())) + Html.escape(DieWords.plainName(t)),
          Integer.toString(t.regions()),
          Html.escape(Quantities.withUncertainty(t.areaMm2(), MM2)),
          Html.escape(Quantities.percent(t.shareOfDie())));
    }
    return "<section>\n<h2>How the die is shared out</h2>\n"
        + ShareChart.bars(survey)
        + table
        + "</section>\n";
  }

  String regions() {
    HtmlTable table =
        new HtmlTable(
            "Regions, largest first within each class",
            List.of(
                HtmlTable.text("Region"),
                HtmlTable.text("Class"),
                HtmlTable.number(scaled ? "Area (k = 1)" : "Area"),
                HtmlTable.number("Share of die"),
                HtmlTable.number("Confidence"),
                HtmlTable.text("Inside"),
                HtmlTable.text("Neighbours")));
    for (SurveyRegion r : survey.regions()) {
      table.row(
          Html.escape(r.id()),
          ShareChart.swatch(ClassStyle.of(r.dieClass()))
              + Html.escape(
                  r.dieClass().label() + r.reason().map(reason -> ": " + reason).orElse("")),
          Html.escape(
              r.areaMm2()
                  .map(m -> Quantities.withUncertainty(m, MM2))
                  .orElse(Quantities.squarePixels(r.areaPx()))),
          Html.escape(Quantities.percent(r.shareOfDie())),
          Html.escape(Quantities.probability(r.confidence())) + ShareChart.meter(r.confidence()),
          Html.escape(inside(r)),
          Html.escape(r.neighbours().isEmpty() ? NONE : String.join(", ", r.neighbours())));
    }
    return "<section>\n<h2>Regions</h2>\n" + table + "</section>\n";
  }

  private static String inside(SurveyRegion r) {
    if (r.bondPads().isPresent()) {
      return r.bondPads().getAsInt() + " bond pads counted";
    }
    int arrays = r.bitCellArraysPx().size();
    return arrays == 0 ? NONE : arrays + (arrays == 1 ? " bit-cell array" : " bit-cell arrays");
  }

  String evidence() {
    HtmlTable table =
        new HtmlTable(
            "Class probabilities and dominant periods of the texture",
            List.of(
                HtmlTable.text("Region"),
                HtmlTable.number("Memory array"),
                HtmlTable.number("Hard macro"),
                HtmlTable.number("Logic"),
                HtmlTable.number("Pad ring"),
                HtmlTable.text("Periods (direction from the die's x axis)")));
    for (SurveyRegion r : survey.regions()) {
      table.row(
          Html.escape(r.id()),
          probability(r, DieClass.MEMORY_ARRAY),
          probability(r, DieClass.HARD_MACRO),
          probability(r, DieClass.LOGIC),
          probability(r, DieClass.PAD_RING),
          r.periods().isEmpty()
              ? NONE
              : r.periods().stream().map(this::period).collect(Collectors.joining("<br>")));
    }
    return "<section>\n<h2>Evidence</h2>\n" + table + "</section>\n";
  }

  private static String probability(SurveyRegion r, DieClass c) {
    Double p = r.probabilities().get(c);
    return p == null ? NONE : Html.escape(Quantities.probability(p));
  }

  private String period(Period p) {
    return Html.escape(
        Quantities.withUncertainty(p.lengthUm(), scaled ? "\u00b5m" : "px")
            + " at "
            + Quantities.fixed(p.directionDeg(), 0)
            + "\u00b0, strength "
            + Quantities.fixed(p.strength(), 2));
  }
}
