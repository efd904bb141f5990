package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import org.diesurvey.calibration.micrometer.DivisionLine;
import org.diesurvey.calibration.micrometer.MicrometerReading;
import org.diesurvey.photo.PixelSource;

/**
 * Pictures of a reading for the person who must see that it counted right: the photograph with the
 * lines that were found, each 10th numbered, and the distances of the lines from equal steps.
 */
public final class MicrometerPictures {
  private static final int LONGEST_PX = 2400;
  private static final Color FOUND = new Color(0x0072B2);
  private static final Color TENTH = new Color(0xD55E00);
  private static final Color LEFT_OUT = new Color(0xCC79A7);
  private static final int PLOT_WIDTH = 1200;
  private static final int PANEL = 320;
  private static final int MARGIN_LEFT = 110;
  private static final int MARGIN = 70;

  private MicrometerPictures() {}

  /** The photograph with the lines found, as PNG. */
  public static byte[] lines(PixelSource photo, MicrometerReading reading) {
    ReducedPhoto reduced = ReducedPhoto.of(photo, LONGEST_PX);
    BufferedImage image = reduced.image();
    Graphics2D g = graphics(image);
    double k = reduced.scale();
    double side = Math.max(image.getWidth(), image.getHeight());
    double size = Math.max(14, side / 70);
    double step = reading.step().px().value() * k;
    float pen = (float) Math.max(1, Math.min(0.15 * step, side / 700));
    double ux = Math.cos(Math.toRadians(reading.rotationDeg().value() + 90));
    double uy = Math.sin(Math.toRadians(reading.rotationDeg().value() + 90));
    for (DivisionLine l : reading.lines()) {
      boolean tenth = l.index() % 10 == 0;
      g.setColor(!l.used() ? LEFT_OUT : tenth ? TENTH : FOUND);
      g.setStroke(new BasicStroke(tenth ? 1.6f * pen : pen));
      double x0 = l.from().x() * k;
      double y0 = l.from().y() * k;
      double x1 = l.to().x() * k;
      double y1 = l.to().y() * k;
      // A tick beyond each end, so that the line in the photo itself stays to be seen.
      double tick = Math.max(6, 0.012 * side);
      g.draw(new Line2D.Double(x0 - ux * tick, y0 - uy * tick, x0 - 2 * ux, y0 - 2 * uy));
      g.draw(new Line2D.Double(x1 + 2 * ux, y1 + 2 * uy, x1 + ux * tick, y1 + uy * tick));
      g.setStroke(new BasicStroke(Math.max(1, 0.4f * pen)));
      g.draw(new Line2D.Double(x0, y0, x1, y1));
      if (tenth) {
        label(g, Integer.toString(l.index()), x1 + ux * 2.4 * tick, y1 + uy * 2.4 * tick, size);
      }
    }
    String caption =
        String.format(
            Locale.ROOT,
            "%d of %d lines used, numbered from 0; %.4f px a division; orange: each 10th, pink:"
                + " left out",
            reading.linesUsed(),
            reading.places(),
            reading.step().px().value());
    Lettering text = Lettering.of(g, caption, Font.PLAIN, size);
    g.setColor(new Color(255, 255, 255, 225));
    g.fill(new Rectangle2D.Double(0, 0, text.width() + size, 1.7 * size));
    text.draw(0.5 * size, 1.2 * size, Color.BLACK);
    g.dispose();
    return png(image);
  }

  private static void label(Graphics2D g, String words, double x, double y, double size) {
    Lettering text = Lettering.of(g, words, Font.BOLD, size);
    double w = text.width();
    g.setColor(new Color(255, 255, 255, 215));
    g.fill(
        new Rectangle2D.Double(
            x - w / 2 - 3, y - text.capHeight() / 2 - 3, w + 6, text.capHeight() + 6));
    text.draw(x - w / 2, y + text.capHeight() / 2, TENTH);
  }

  /** Distances of the lines from equal steps, one panel for each reading, as PNG. */
  public static byte[] residuals(List<MicrometerReading> readings) {
    int height = readings.size() * (PANEL + MARGIN) + MARGIN;
    BufferedImage image = new BufferedImage(PLOT_WIDTH, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = graphics(image);
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, PLOT_WIDTH, height);
    for (int i = 0; i < readings.size(); i++) {
      panel(g, readings.get(i), MARGIN + i * (PANEL + MARGIN));
    }
    g.dispose();
    return png(image);
  }

  private static void panel(Graphics2D g, MicrometerReading r, int top) {
    double most = r.lines().stream().mapToDouble(l -> Math.abs(l.residualPx())).max().orElse(0.01);
    double reach = nice(Math.max(0.005, 1.1 * most));
    double width = PLOT_WIDTH - MARGIN_LEFT - 30;
    double middle = top + PANEL / 2.0;
    String title =
        String.format(
            Locale.ROOT,
            "%s: place of each line minus equal steps; standard deviation %.3f px = %.3f um",
            r.photo(),
            r.step().scatterPx(),
            r.step().scatterPx() * r.umPerPx());
    Lettering.of(g, title, Font.BOLD, 17).draw(MARGIN_LEFT, top - 12, Color.BLACK);
    g.setStroke(new BasicStroke(1));
    for (int k = -2; k <= 2; k++) {
      double y = middle - k * PANEL / 4.0;
      g.setColor(k == 0 ? Color.DARK_GRAY : Color.LIGHT_GRAY);
      g.draw(new Line2D.Double(MARGIN_LEFT, y, MARGIN_LEFT + width, y));
      Lettering t =
          Lettering.of(g, String.format(Locale.ROOT, "%+.3g px", 0.5 * k * reach), Font.PLAIN, 14);
      t.draw(MARGIN_LEFT - 8 - t.width(), y + 5, Color.BLACK);
    }
    double scale = width / Math.max(1, r.places() - 1);
    int labels = (int) nice(Math.max(1, r.places() / 10.0));
    for (int k = 0; k < r.places(); k += labels) {
      Lettering t = Lettering.of(g, Integer.toString(k), Font.PLAIN, 14);
      t.draw(MARGIN_LEFT + k * scale - t.width() / 2, top + PANEL + 18, Color.BLACK);
    }
    Lettering.of(g, "number of the line", Font.PLAIN, 14)
        .draw(MARGIN_LEFT + width - 125, top + PANEL + 36, Color.BLACK);
    if (r.bend().significant()) {
      Path2D curve = new Path2D.Double();
      boolean begun = false;
      for (DivisionLine l : r.lines()) {
        double x = MARGIN_LEFT + l.index() * scale;
        double y = middle - l.curvePx() / reach * PANEL / 2;
        if (begun) {
          curve.lineTo(x, y);
        } else {
          curve.moveTo(x, y);
          begun = true;
        }
      }
      g.setColor(TENTH);
      g.setStroke(new BasicStroke(2));
      g.draw(curve);
    }
    for (DivisionLine l : r.lines()) {
      double x = MARGIN_LEFT + l.index() * scale;
      double y = middle - l.residualPx() / reach * PANEL / 2;
      g.setColor(l.used() ? FOUND : LEFT_OUT);
      g.fill(new Ellipse2D.Double(x - 4, y - 4, 8, 8));
    }
  }

  /** The next of 1, 2, 5, 10, ... that is not smaller. */
  private static double nice(double value) {
    double power = Math.pow(10, Math.floor(Math.log10(value)));
    for (double f : new double[] {1, 2, 5}) {
      if (f * power >= value * 0.999999) {
        return f * power;
      }
    }
    return 10 * power;
  }

  private static Graphics2D graphics(BufferedImage image) {
    Graphics2D g = image.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    return g;
  }

  private static byte[] png(BufferedImage image) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      MapFiles.writePicture(image, out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }
}
