package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/** What stands around the photograph: title above, legend and scale bar below. */
final class OverlayFrame {
  private static final Color PAPER = new Color(0xFBFAF6);
  private static final Color INK = new Color(0x1C2430);
  private static final Color SOFT_INK = new Color(0x5A6472);
  private static final double ITEM_WIDTH = 372;
  private static final double ROW_HEIGHT = 82;
  private static final double TITLE_HEIGHT = 84;
  private static final double MARGIN = 28;

  private final Survey survey;
  private final Graphics2D g;
  private final double unit;
  private final int width;

  private OverlayFrame(Survey survey, Graphics2D g, double unit, int width) {
    this.survey = survey;
    this.g = g;
    this.unit = unit;
    this.width = width;
  }

  /**
   * @param drawn the photograph with regions
   * @param scale picture px per photo px
   * @param unit size of strokes and letters
   */
  static BufferedImage around(Survey survey, BufferedImage drawn, double scale, double unit) {
    int margin = (int) Math.round(MARGIN * unit);
    // A strip of a photograph still needs room for one item of the legend.
    int width = 2 * margin + Math.max(drawn.getWidth(), (int) Math.ceil(ITEM_WIDTH * unit));
    int columns = Math.max(1, (int) ((width / unit - MARGIN) / ITEM_WIDTH));
    int items =
        survey.totals().size()
            + (hasArrays(survey) ? 1 : 0)
            + (survey.scale().calibration().isPresent() ? 1 : 0);
    int rows = (items + columns - 1) / columns;
    OverlayNotices notices = new OverlayNotices(survey, width - 2 * margin, unit);
    int title = (int) Math.round(TITLE_HEIGHT * unit);
    int top = title + notices.height();
    int bottom = (int) Math.round((rows * ROW_HEIGHT + 1.2 * MARGIN) * unit);
    BufferedImage page =
        new BufferedImage(width, top + drawn.getHeight() + bottom, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = page.createGraphics();
    OverlayPicture.smooth(g);
    g.setColor(PAPER);
    g.fillRect(0, 0, page.getWidth(), page.getHeight());
    g.drawImage(drawn, margin, top, null);
    OverlayFrame frame = new OverlayFrame(survey, g, unit, width);
    frame.title();
    notices.draw(g, margin, title);
    frame.legend(top + drawn.getHeight(), columns, rows, scale);
    g.dispose();
    return page;
  }

  private static boolean hasArrays(Survey survey) {
    return survey.regions().stream().anyMatch(r -> !r.inPhoto().bitCellArrays().isEmpty());
  }

  private void title() {
    Lettering size = Lettering.of(g, DieWords.size(survey), Font.PLAIN, 26 * unit);
    double right = width - MARGIN * unit - size.width();
    String name = survey.photo().fileName();
    Lettering title = Lettering.of(g, name, Font.BOLD, 34 * unit);
    while (title.width() > right - 2 * MARGIN * unit && name.length() > 8) {
      name = name.substring(0, name.length() - 2);
      title = Lettering.of(g, name + "\u2026", Font.BOLD, 34 * unit);
    }
    title.draw(MARGIN * unit, 54 * unit, INK);
    size.draw(right, 54 * unit, SOFT_INK);
  }

  private void legend(double top, int columns, int rows, double scale) {
    double step = (width - 2 * MARGIN * unit) / columns;
    List<ClassTotal> totals = survey.totals();
    for (int i = 0; i < totals.size(); i++) {
      double x = MARGIN * unit + (i % columns) * step;
      double y = top + (MARGIN + (i / columns) * ROW_HEIGHT) * unit;
      item(totals.get(i), x, y);
    }
    if (hasArrays(survey)) {
      int i = totals.size();
      arrays(
          MARGIN * unit + (i % columns) * step, top + (MARGIN + (i / columns) * ROW_HEIGHT) * unit);
    }
    if (survey.scale().calibration().isPresent()) {
      double umPerPicturePx = survey.scale().calibration().get().umPerPx().value() / scale;
      ScaleBar bar = ScaleBar.upTo((step - MARGIN * unit) * umPerPicturePx);
      double length = bar.lengthUm() / umPerPicturePx;
      scaleBar(bar, length, top + (MARGIN + (rows - 1) * ROW_HEIGHT) * unit);
    }
  }

  private void item(ClassTotal total, double x, double y) {
    ClassStyle style = ClassStyle.of(total.dieClass(), total.reason());
    Rectangle2D swatch = new Rectangle2D.Double(x, y, 52 * unit, 52 * unit);
    g.setColor(Color.WHITE);
    g.fill(swatch);
    g.setPaint(HatchPaint.of(style, (int) Math.round(14 * unit), 1.5 * unit));
    g.fill(swatch);
    OverlayPicture.outline(g, swatch, total.dieClass(), style, unit);
    double left = x + 68 * unit;
    line(DieWords.name(total), Font.BOLD, 24 * unit, left, y + 20 * unit, INK);
    line(DieWords.amount(total), Font.PLAIN, 22 * unit, left, y + 50 * unit, SOFT_INK);
  }

  /** The dashed line is part of a memory array, so it has no figures of its own. */
  private void arrays(double x, double y) {
    g.setColor(Color.WHITE);
    Rectangle2D swatch = new Rectangle2D.Double(x, y, 52 * unit, 52 * unit);
    g.fill(swatch);
    g.setColor(INK);
    float[] dash = {(float) (6 * unit), (float) (4.2 * unit)};
    g.setStroke(
        new BasicStroke(
            (float) (2 * unit), BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, dash, 0f));
    g.draw(swatch);
    double left = x + 68 * unit;
    line("Bit-cell arrays", Font.BOLD, 24 * unit, left, y + 20 * unit, INK);
    line("inside memory arrays", Font.PLAIN, 22 * unit, left, y + 50 * unit, SOFT_INK);
  }

  /** Text beside a swatch, smaller where it would run into the next item. */
  private void line(String words, int style, double size, double x, double y, Color color) {
    double tooWide = Lettering.of(g, words, style, size).width() / ((ITEM_WIDTH - 84) * unit);
    Lettering.of(g, words, style, size / Math.max(1, tooWide)).draw(x, y, color);
  }

  private void scaleBar(ScaleBar bar, double length, double y) {
    double right = width - MARGIN * unit;
    double base = y + 46 * unit;
    g.setColor(INK);
    g.setStroke(new BasicStroke((float) (5 * unit), BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
    g.draw(new Line2D.Double(right - length, base, right, base));
    g.setStroke(new BasicStroke((float) (2.4 * unit)));
    for (double x : new double[] {right - length + 1.2 * unit, right - 1.2 * unit}) {
      g.draw(new Line2D.Double(x, base - 10 * unit, x, base + 10 * unit));
    }
    Lettering text = Lettering.of(g, bar.label(), Font.BOLD, 24 * unit);
    text.draw(right - length / 2 - text.width() / 2, y + 24 * unit, INK);
  }
}
