package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Paint;
import java.awt.RenderingHints;
import java.awt.TexturePaint;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;

/** A translucent fill with a hatch over it, as a repeating tile. */
final class HatchPaint {
  private static final double FILL_ALPHA = 0.13;
  private static final double HATCH_ALPHA = 0.32;

  private HatchPaint() {}

  /**
   * @param style colour and pattern
   * @param pitchPx side of the tile, px
   * @param linePx width of the hatch lines, px
   */
  static Paint of(ClassStyle style, int pitchPx, double linePx) {
    int n = pitchPx;
    BufferedImage tile = new BufferedImage(n, n, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = tile.createGraphics();
    Color fill = style.withAlpha(FILL_ALPHA);
    g.setColor(fill);
    g.fillRect(0, 0, n, n);
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g.setColor(style.withAlpha(HATCH_ALPHA));
    g.setStroke(new BasicStroke((float) linePx, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
    double mid = n / 2.0;
    switch (style.hatch()) {
      case CELLS -> {
        double d = 2.2 * linePx;
        for (double x : new double[] {n / 4.0, 3 * n / 4.0}) {
          g.fill(new Rectangle2D.Double(x - d / 2, n / 4.0 - d / 2, d, d));
          g.fill(new Rectangle2D.Double(x - d / 2, 3 * n / 4.0 - d / 2, d, d));
        }
      }
      case CROSS -> {
        diagonal(g, n, true);
        diagonal(g, n, false);
      }
      case ROWS -> g.draw(new Line2D.Double(0, mid, n, mid));
      case COLUMNS -> g.draw(new Line2D.Double(mid, 0, mid, n));
      case RISING -> diagonal(g, n, true);
      case FALLING -> diagonal(g, n, false);
    }
    g.dispose();
    return new TexturePaint(tile, new Rectangle2D.Double(0, 0, n, n));
  }

  /** Three lines, so that the corners of neighbouring tiles meet without notches. */
  private static void diagonal(Graphics2D g, int n, boolean rising) {
    for (int shift = -n; shift <= n; shift += n) {
      g.draw(
          rising
              ? new Line2D.Double(shift - n, 2 * n, shift + 2 * n, -n)
              : new Line2D.Double(shift - n, -n, shift + 2 * n, 2 * n));
    }
  }
}
