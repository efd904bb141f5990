package org.diesurvey.report.page;

import java.util.List;
import java.util.stream.Collectors;
import org.diesurvey.classification.DieClass;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.FinePatternText;
import org.diesurvey.report.text.InsideWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The tables of single regions. A crowd of specks is folded away, so that the blocks of the die
 * stand out; nothing is left out. All methods return safe markup.
 */
final class RegionTables {
  private static final String NONE = "\u2013";

  /** Share of the whole under which a region counts as a speck. */
  private static final double SPECK_SHARE = 0.001;

  /** Fewer specks than this stay in the table. */
  private static final int FEW = 4;

  private static final int MOST_NEIGHBOURS = 10;

  private final Survey survey;
  private final boolean scaled;
  private final List<SurveyRegion> blocks;
  private final List<SurveyRegion> specks;

  RegionTables(Survey survey) {
    this.survey = survey;
    scaled = survey.scale().calibration().isPresent();
    List<SurveyRegion> small =
        survey.regions().stream().filter(r -> r.area().shareOfDie() < SPECK_SHARE).toList();
    specks = small.size() < FEW || small.size() == survey.regions().size() ? List.of() : small;
    blocks = survey.regions().stream().filter(r -> !specks.contains(r)).toList();
  }

  String regions() {
    return section(
        "as-found",
        "Regions",
        "Regions, largest first within each class; shares of the " + DieWords.whole(survey),
        this::regions);
  }

  String evidence() {
    return section(
        "evidence",
        "Evidence",
        "Class probabilities and dominant periods of the texture",
        this::evidence);
  }

  /** A table of the blocks, and one of the specks that opens on request. */
  private String section(String css, String title, String caption, Filler filler) {
    StringBuilder s =
        new StringBuilder("<section class=\"" + css + "\">\n<h2>" + title + "</h2>\n");
    s.append(filler.table(caption, blocks));
    if (!specks.isEmpty()) {
      s.append("<details>\n<summary>")
          .append(specks.size())
          .append(" more regions, each under 0.1\u00a0% of the ")
          .append(DieWords.whole(survey))
          .append("</summary>\n")
          .append(filler.table(caption + ": under 0.1\u00a0%", specks))
          .append("</details>\n");
    }
    return s + "</section>\n";
  }

  private interface Filler {
    HtmlTable table(String caption, List<SurveyRegion> rows);
  }

  private HtmlTable regions(String caption, List<SurveyRegion> rows) {
    HtmlTable table =
        new HtmlTable(
            caption,
            List.of(
                HtmlTable.text("Region"),
                HtmlTable.text("Class"),
                HtmlTable.number(scaled ? "Area (k = 1)" : "Area"),
                HtmlTable.number("Share"),
                HtmlTable.number("Confidence"),
                HtmlTable.text("Inside"),
                HtmlTable.text("Neighbours")));
    for (SurveyRegion r : rows) {
      table.row(
          Html.escape(r.id()),
          ShareChart.swatch(ClassStyle.of(r.dieClass(), r.verdict().reason()))
              + Html.escape(
                  r.dieClass().label()
                      + r.verdict().reason().map(reason -> ": " + reason.label()).orElse("")),
          Html.escape(
              r.areaMm2()
                  .map(m -> Quantities.withUncertainty(m, "mm\u00b2"))
                  .orElse(Quantities.squarePixels(r.area().px2()))),
          Html.escape(Quantities.percent(r.area().shareOfDie())),
          confidence(r),
          Html.escape(inside(r)),
          Html.escape(
              r.neighbours().isEmpty() ? NONE : DieWords.listed(r.neighbours(), MOST_NEIGHBOURS)));
    }
    return table;
  }

  /** An undecided region has no class whose confidence could be told; see its probabilities. */
  private static String confidence(SurveyRegion r) {
    return r.verdict().unknown()
        ? NONE
        : Html.escape(Quantities.probability(r.confidence())) + ShareChart.meter(r.confidence());
  }

  private static String inside(SurveyRegion r) {
    return InsideWords.of(r).orElse(NONE);
  }

  private HtmlTable evidence(String caption, List<SurveyRegion> rows) {
    HtmlTable table =
        new HtmlTable(
            caption,
            List.of(
                HtmlTable.text("Region"),
                HtmlTable.number("Memory array"),
                HtmlTable.number("Hard macro"),
                HtmlTable.number("Logic"),
                HtmlTable.number("Pad ring"),
                HtmlTable.text("Periods (direction from the " + axisOwner() + "'s x axis)"),
                HtmlTable.text("Bit cells, rows")));
    for (SurveyRegion r : rows) {
      table.row(
          Html.escape(r.id()),
          probability(r, DieClass.MEMORY_ARRAY),
          probability(r, DieClass.HARD_MACRO),
          probability(r, DieClass.LOGIC),
          probability(r, DieClass.PAD_RING),
          r.periods().isEmpty()
              ? NONE
              : r.periods().stream().map(this::period).collect(Collectors.joining("<br>")),
          r.finePattern().map(f -> Html.escape(FinePatternText.of(f))).orElse(NONE));
    }
    return table;
  }

  private String axisOwner() {
    return survey.die().edgeFound() ? "die" : "layout";
  }

  private static String probability(SurveyRegion r, DieClass c) {
    Double p = r.verdict().probabilities().get(c);
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
