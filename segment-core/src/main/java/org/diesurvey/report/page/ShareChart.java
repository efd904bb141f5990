package org.diesurvey.report.page;

import java.util.Locale;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/** Drawings of the page as inline SVG: bars of shares, swatches, meters of confidence. */
final class ShareChart {
  private static final int ROW = 40;
  private static final int LEFT = 200;
  private static final int FULL = 430;
  private static final int WIDTH = 860;

  private ShareChart() {}

  /** Hatch patterns for all drawings of the page, in one hidden drawing. */
  static String patterns() {
    StringBuilder svg = new StringBuilder("<svg class=\"defs\" aria-hidden=\"true\"><defs>\n");
    for (ClassStyle.Hatch hatch : ClassStyle.Hatch.values()) {
      svg.append("<pattern id=\"h-")
          .append(hatch.name().toLowerCase(Locale.ROOT))
          .append("\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><path d=\"")
          .append(path(hatch))
          .append("\" stroke=\"#fff\" stroke-opacity=\"0.7\" stroke-width=\"1.3\"/></pattern>\n");
    }
    return svg + "</defs></svg>\n";
  }

  private static String path(ClassStyle.Hatch hatch) {
    String rising = "M-1 10L10 -1M-2 2L2 -2M7 11L11 7";
    String falling = "M-1 -1L10 10M7 -2L11 2M-2 7L2 11";
    return switch (hatch) {
      case CELLS -> "M1.5 3H4M6 3H8.5M1.5 7H4M6 7H8.5";
      case CROSS -> rising + falling;
      case ROWS -> "M0 4.5H9";
      case COLUMNS -> "M4.5 0V9";
      case RISING -> rising;
      case FALLING -> falling;
    };
  }

  /** A horizontal bar per row of the class totals; full width is the whole die. */
  static String bars(Survey survey) {
    int height = ROW * survey.totals().size() + 8;
    StringBuilder svg = new StringBuilder();
    svg.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"bars\" viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"Shares by"
                + " class; the figures stand in the table of class totals\">\n",
            WIDTH,
            height));
    int y = 4;
    for (ClassTotal t : survey.totals()) {
      double length = Math.max(1, FULL * Math.min(1, t.shareOfDie()));
      text(svg, LEFT - 12, y + 21, "end", "strong", DieWords.plainName(t));
      box(svg, "track", LEFT, y + 4, FULL, 24, "");
      ClassStyle style = ClassStyle.of(t.dieClass(), t.reason());
      box(svg, "", LEFT, y + 4, length, 24, style.hex());
      box(svg, "", LEFT, y + 4, length, 24, "url(#" + patternId(style) + ")");
      text(svg, LEFT + FULL + 14, y + 21, "start", "", DieWords.amount(t));
      y += ROW;
    }
    return svg + "</svg>\n";
  }

  private static String patternId(ClassStyle style) {
    return "h-" + style.hatch().name().toLowerCase(Locale.ROOT);
  }

  private static void box(
      StringBuilder svg, String css, double x, double y, double w, double h, String fill) {
    svg.append(
        String.format(
            Locale.ROOT,
            "<rect%s x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"%s/>\n",
            css.isEmpty() ? "" : " class=\"" + css + "\"",
            x,
            y,
            w,
            h,
            fill.isEmpty() ? "" : " fill=\"" + fill + "\""));
  }

  private static void text(
      StringBuilder svg, int x, int y, String anchor, String css, String words) {
    svg.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%d\" y=\"%d\" text-anchor=\"%s\"%s>%s</text>\n",
            x,
            y,
            anchor,
            css.isEmpty() ? "" : " class=\"" + css + "\"",
            Html.escape(words)));
  }

  /** A small square in the colour and hatch of a class. */
  static String swatch(ClassStyle style) {
    return "<svg class=\"swatch\" viewBox=\"0 0 14 14\" aria-hidden=\"true\"><rect width=\"14\""
        + " height=\"14\" fill=\""
        + style.hex()
        + "\"/><rect width=\"14\" height=\"14\" fill=\"url(#"
        + patternId(style)
        + ")\"/></svg>";
  }

  /** A bar from 0 to 1 beside its figure. */
  static String meter(double share) {
    return String.format(
        Locale.ROOT,
        "<svg class=\"meter\" viewBox=\"0 0 60 8\" aria-hidden=\"true\"><rect class=\"track\""
            + " width=\"60\" height=\"8\"/><rect class=\"fill\" width=\"%.1f\""
            + " height=\"8\"/></svg>",
        60 * share);
  }
}
