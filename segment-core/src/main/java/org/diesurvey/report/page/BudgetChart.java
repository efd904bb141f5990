package org.diesurvey.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/**
 * Where the uncertainty of a figure comes from, as bars: the length of a bar is the relative
 * standard uncertainty, its parts are shares of the variance (JCGM 100:2008, GUM, 5.1.2: variances
 * of independent parts add).
 */
final class BudgetChart {
  private static final int ROW = 34;
  private static final int LEFT = 170;
  private static final int FULL = 400;
  private static final int WIDTH = 860;

  private BudgetChart() {}

  /**
   * One part of a budget.
   *
   * @param name what it is
   * @param share of the variance, 0 to 1
   */
  record Part(String name, double share) {}

  /**
   * One figure.
   *
   * @param name what is measured
   * @param relative relative standard uncertainty, 0 or more
   * @param parts shares that sum to 1; the same names in the same order in all rows of a chart
   */
  record Row(String name, double relative, List<Part> parts) {
    Row {
      parts = List.copyOf(parts);
    }
  }

  /** The section of the page; empty where there are no areas. */
  static String section(Survey survey) {
    List<Row> rows = areas(survey);
    if (rows.isEmpty()) {
      return "";
    }
    StringBuilder s = new StringBuilder("<section>\n<h2>Uncertainty budget</h2>\n");
    s.append(
        """
        <p>Length: standard uncertainty of the class's total area, relative to it. Parts: shares of
        the variance. The outline's part is each region's own; the scale's is common to all.</p>
        """);
    s.append(svg(rows, "Uncertainty of the areas by class; the figures stand beside the bars"));
    s.append("<p>").append(Html.escape(advice(rows))).append("</p>\n");
    return s + "</section>\n";
  }

  /** Budgets of the class totals, from the parts in the survey. */
  private static List<Row> areas(Survey survey) {
    List<Row> rows = new ArrayList<>();
    if (survey.scale().calibration().isEmpty()) {
      return rows;
    }
    for (ClassTotal t : survey.totals()) {
      Optional<MeasuredArea> area = t.mm2();
      if (area.isEmpty() || area.get().value() <= 0 || t.dieClass() == DieClass.UNCLEAR) {
        continue;
      }
      double relative = area.get().joined().relativeUncertainty();
      if (relative > 0) {
        double share = area.get().scaleShare();
        rows.add(
            new Row(
                DieWords.plainName(t),
                relative,
                List.of(new Part("outline", 1 - share), new Part("scale", share))));
      }
    }
    return rows;
  }

  private static String advice(List<Row> rows) {
    double outline = rows.stream().mapToDouble(r -> r.parts().get(0).share()).average().orElse(0);
    return outline > 0.5
        ? "The outlines weigh most: correct the sides that are off before you look for a better"
            + " scale."
        : "The scale weighs most: a stage micrometer under the same optics would shrink every"
            + " area's uncertainty.";
  }

  /** The bars; the longest fills the room. */
  static String svg(List<Row> rows, String inWords) {
    double longest = rows.stream().mapToDouble(Row::relative).max().orElse(1);
    List<Part> names = rows.get(0).parts();
    int height = ROW * rows.size() + 36;
    StringBuilder s = new StringBuilder();
    s.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"bars budget\" viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"%s\">\n",
            WIDTH,
            height,
            Html.escape(inWords)));
    int x = LEFT;
    for (int i = 0; i < names.size(); i++) {
      s.append(box(i, x, 6, 14, 14)).append(text(x + 20, 18, "start", names.get(i).name()));
      x += 34 + 9 * names.get(i).name().length();
    }
    int y = 32;
    for (Row r : rows) {
      double from = LEFT;
      double full = FULL * r.relative() / longest;
      s.append(text(LEFT - 12, y + 16, "end", r.name()));
      for (int i = 0; i < r.parts().size(); i++) {
        double width = full * r.parts().get(i).share();
        s.append(box(i, from, y, width, 22));
        from += width;
      }
      s.append(text((int) (LEFT + full) + 12, y + 16, "start", figures(r)));
      y += ROW;
    }
    return s + "</svg>\n";
  }

  /**
   * One bar for each cause of the uncertainty of one figure; full length is all of its variance.
   */
  static String causes(List<Part> parts, String inWords) {
    int height = ROW * parts.size() + 4;
    StringBuilder s = new StringBuilder();
    s.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"bars budget\" viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"%s\">\n",
            WIDTH,
            height,
            Html.escape(inWords)));
    int y = 2;
    for (Part p : parts) {
      double width = FULL * Math.max(0, Math.min(1, p.share()));
      s.append(text(LEFT - 12, y + 16, "end", p.name())).append(box(0, LEFT, y, width, 22));
      s.append(text((int) (LEFT + width) + 12, y + 16, "start", Quantities.percent(p.share())));
      y += ROW;
    }
    return s + "</svg>\n";
  }

  private static String figures(Row r) {
    StringBuilder s = new StringBuilder();
    s.append(Quantities.significant(100 * r.relative(), 2)).append("\u00a0%");
    for (Part p : r.parts()) {
      s.append("   ").append(p.name()).append(' ').append(Math.round(100 * p.share()));
      s.append("\u00a0%");
    }
    return s.toString();
  }

  private static String box(int part, double x, double y, double w, double h) {
    return String.format(
        Locale.ROOT,
        "<rect class=\"part-%d\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n",
        part,
        x,
        y,
        w,
        h);
  }

  private static String text(int x, int y, String anchor, String words) {
    return String.format(
        Locale.ROOT,
        "<text x=\"%d\" y=\"%d\" text-anchor=\"%s\">%s</text>\n",
        x,
        y,
        anchor,
        Html.escape(words));
  }
}
