package org.diesurvey.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.text.Amounts;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.report.text.SevereNotices;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;

/** The parts of the page that show what was found. All methods return safe markup. */
public final class ReportSections {
  private static final String MM2 = "mm\u00b2";

  private final Survey survey;
  private final boolean scaled;

  public ReportSections(Survey survey) {
    this.survey = survey;
    scaled = survey.scale().calibration().isPresent();
  }

  /** The result in a sentence, and the refusal of areas where there is no scale. */
  public String lead() {
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
        rest.add(
            amountWithShare(t) + " is " + t.reason().map(UnclearReason::label).orElse("unclear"));
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
    String px = DieWords.pixels(survey);
    if (die.widthMm().isEmpty() || die.heightMm().isEmpty()) {
      return die.edgeFound()
          ? "on the die in this photograph of " + px
          : "in this photograph of "
              + px
              + (die.partial() ? ", which cuts the die" : ", which shows no die edge");
    }
    if (!die.edgeFound()) {
      return "in this field of "
          + Quantities.significant(die.areaMm2().orElseThrow().value(), 4)
          + "\u00a0"
          + MM2
          + (die.partial() ? ", the visible part of the die" : ", which shows no die edge");
    }
    return "on this die of "
        + Quantities.significant(die.widthMm().get().value(), 4)
        + " \u00d7 "
        + Quantities.significant(die.heightMm().get().value(), 4)
        + "\u00a0mm";
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

  /** The result in one line, for those who work at the picture. */
  String headline() {
    List<String> facts = new ArrayList<>();
    DieFrame die = survey.die();
    if (die.edgeFound() && die.widthMm().isPresent() && die.heightMm().isPresent()) {
      facts.add(
          Quantities.withUncertainty(die.widthMm().get(), "")
              + " \u00d7 "
              + Quantities.withUncertainty(die.heightMm().get(), "mm"));
    } else {
      facts.add(DieWords.pixels(survey));
    }
    survey
        .scale()
        .calibration()
        .ifPresent(
            c -> facts.add("scale " + Quantities.withUncertainty(c.umPerPx(), "\u00b5m/px")));
    survey
        .method()
        .nodeNm()
        .ifPresent(n -> facts.add(Quantities.plain(n, 4) + "\u00a0nm, as stated"));
    for (ClassTotal t : survey.totals()) {
      if (t.dieClass() != DieClass.UNCLEAR) {
        facts.add(
            t.dieClass().label()
                + " "
                + t.areaMm2()
                    .map(a -> Quantities.withUncertainty(a, MM2))
                    .orElse(Quantities.percent(t.shareOfDie())));
      }
    }
    survey
        .estimates()
        .ifPresent(
            e ->
                e.totals()
                    .forEach(
                        t ->
                            facts.add(
                                "about "
                                    + Amounts.count(t.amount().value())
                                    + " "
                                    + Amounts.unit(t.kind())
                                    + " ("
                                    + Amounts.interval(t.amount())
                                    + ")")));
    return "<p class=\"headline live-only\">"
        + facts.stream()
            .map(f -> "<span>" + Html.escape(f) + "</span>")
            .collect(Collectors.joining(" "))
        + "</p>\n";
  }

  public String keyFigures() {
    DieFrame die = survey.die();
    StringBuilder s = new StringBuilder("<dl class=\"figures\">\n");
    if (die.edgeFound()) {
      die.widthMm().ifPresent(m -> figure(s, "Die width", Quantities.withUncertainty(m, "mm")));
      die.heightMm().ifPresent(m -> figure(s, "Die height", Quantities.withUncertainty(m, "mm")));
    } else {
      figure(s, "Photograph", DieWords.pixels(survey));
    }
    figure(
        s,
        die.edgeFound() ? "Die area" : die.partial() ? "Area of the visible part" : "Field area",
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
        .method()
        .nodeNm()
        .ifPresent(n -> figure(s, "Process node, as stated", Quantities.plain(n, 4) + " nm"));
    return s + "</dl>\n";
  }

  private static void figure(StringBuilder s, String name, String value) {
    s.append("<div><dt>").append(name).append("</dt><dd>");
    s.append(Html.escape(value)).append("</dd></div>\n");
  }

  /** What to know first: how many warnings there are, and which classes are in doubt. */
  public String inBrief() {
    StringBuilder s = new StringBuilder();
    List<Notice> severe = SevereNotices.of(survey);
    for (Notice notice : severe) {
      s.append("<p class=\"brief severe\"><strong>")
          .append(Html.escape(notice.sentence()))
          .append("</strong> ")
          .append(Html.escape(notice.remedy()))
          .append("</p>\n");
    }
    int n = survey.notices().size() - severe.size();
    if (n > 0) {
      s.append("<p class=\"brief\"><a href=\"#warnings\">")
          .append(n)
          .append(n == 1 ? " warning" : " warnings")
          .append(" to know before using these figures</a></p>\n");
    }
    SevereNotices.doubt(survey)
        .ifPresent(
            doubt -> s.append("<p class=\"brief\">").append(Html.escape(doubt)).append("</p>\n"));
    return s.toString();
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
                HtmlTable.number("Share of " + DieWords.whole(survey))));
    for (ClassTotal t : survey.totals()) {
      table.row(
          ShareChart.swatch(ClassStyle.of(t.dieClass(), t.reason()))
              + Html.escape(DieWords.plainName(t)),
          Integer.toString(t.regions()),
          Html.escape(Quantities.withUncertainty(t.areaMm2(), MM2)),
          Html.escape(Quantities.percent(t.shareOfDie())));
    }
    return "<section>\n<h2>Area by class</h2>\n"
        + ShareChart.bars(survey)
        + table
        + "<p class=\"gaps\">What is missing from 100\u00a0% are gaps between regions and specks"
        + " too small to report.</p>\n"
        + "</section>\n";
  }
}
