package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.OptionalDouble;
import org.diesurvey.inspection.Contamination;
import org.diesurvey.inspection.FocusMap;
import org.diesurvey.inspection.Inspection;
import org.diesurvey.inspection.RepeatedStrip;
import org.diesurvey.inspection.Seam;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/**
 * The photograph with what an inspection found in it: a disc in every cell of the focus map that is
 * the larger the softer the edges are, lines along seams, frames around spots, paint on clipped
 * areas. Colours: set of Okabe and Ito, "Color Universal Design" (2008), from memory.
 */
final class InspectionPicture {
  static final Color DISC = new Color(0x56B4E9);
  static final Color SOFT_DISC = new Color(0xE69F00);
  static final Color SEAM = new Color(0xCC79A7);
  static final Color REPEAT = new Color(0xD55E00);
  static final Color DARK_SPOT = new Color(0x0072B2);
  static final Color BRIGHT_SPOT = new Color(0xF0E442);
  static final Color WHITE_CLIP = new Color(0xFF2020);
  static final Color BLACK_CLIP = new Color(0x3050FF);
  static final Color EDGE = Color.WHITE;

  /** From here on a disc is drawn as soft, px. */
  static final double SOFT_PX = 1.8;

  private static final int LONGEST_PX = 1800;
  private static final Color HALO = new Color(0, 0, 0, 170);

  /** Mean level of a reduced pixel from which it counts as clipped. */
  private static final int WHITE_MEAN = 252;

  private static final int BLACK_MEAN = 2;

  private final Inspection inspection;
  private final Graphics2D g;
  private final double scale;
  private final double unit;

  private InspectionPicture(Inspection inspection, Graphics2D g, double scale, double unit) {
    this.inspection = inspection;
    this.g = g;
    this.scale = scale;
    this.unit = unit;
  }

  /** Draws the picture; the photo must be the one that was inspected. */
  static BufferedImage of(Inspection inspection, PixelSource source) {
    ReducedPhoto photo = ReducedPhoto.of(source, LONGEST_PX);
    BufferedImage image = photo.image();
    double unit = Math.max(0.5, Math.max(image.getWidth(), image.getHeight()) / 1800.0);
    paintClipped(image);
    Graphics2D g = image.createGraphics();
    OverlayPicture.smooth(g);
    InspectionPicture picture = new InspectionPicture(inspection, g, photo.scale(), unit);
    picture.dieEdge();
    picture.spots();
    picture.seams();
    picture.repeats();
    picture.focus();
    g.dispose();
    return InspectionLegend.around(inspection, image, unit);
  }

  private static void paintClipped(BufferedImage image) {
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        int rgb = image.getRGB(x, y);
        int most = Math.max(rgb >> 16 & 0xff, Math.max(rgb >> 8 & 0xff, rgb & 0xff));
        if (most >= WHITE_MEAN) {
          image.setRGB(x, y, WHITE_CLIP.getRGB());
        } else if (most <= BLACK_MEAN) {
          image.setRGB(x, y, BLACK_CLIP.getRGB());
        }
      }
    }
  }

  private void dieEdge() {
    if (!inspection.subject().die().edgeFound()) {
      return;
    }
    Path2D path = new Path2D.Double();
    for (PixelPoint p : inspection.subject().die().cornersPx()) {
      if (path.getCurrentPoint() == null) {
        path.moveTo(p.x() * scale, p.y() * scale);
      } else {
        path.lineTo(p.x() * scale, p.y() * scale);
      }
    }
    path.closePath();
    outlined(path, EDGE, 2.2);
  }

  /** A line in colour on a dark halo, to be seen on any ground. */
  private void outlined(java.awt.Shape shape, Color color, double width) {
    g.setStroke(new BasicStroke((float) ((width + 2) * unit)));
    g.setColor(HALO);
    g.draw(shape);
    g.setStroke(new BasicStroke((float) (width * unit)));
    g.setColor(color);
    g.draw(shape);
  }

  private void spots() {
    for (Contamination.Spot s : inspection.artefacts().dirt().spots()) {
      PixelRect b = s.boundsPx();
      double grow = 3 * unit;
      outlined(
          new Rectangle2D.Double(
              b.x() * scale - grow,
              b.y() * scale - grow,
              b.width() * scale + 2 * grow,
              b.height() * scale + 2 * grow),
          s.bright() ? BRIGHT_SPOT : DARK_SPOT,
          2);
    }
  }

  private void seams() {
    double w = inspection.subject().photo().widthPx() * scale;
    double h = inspection.subject().photo().heightPx() * scale;
    for (Seam s : inspection.artefacts().stitching().seams()) {
      double at = s.placePx() * scale;
      outlined(
          s.along() == Axis.Y ? new Line2D.Double(at, 0, at, h) : new Line2D.Double(0, at, w, at),
          SEAM,
          3);
    }
  }

  private void repeats() {
    double w = inspection.subject().photo().widthPx() * scale;
    double h = inspection.subject().photo().heightPx() * scale;
    for (RepeatedStrip r : inspection.artefacts().stitching().repeats()) {
      double at = r.placePx() * scale;
      double wide = Math.max(2, r.widthPx() * scale);
      Rectangle2D strip =
          r.along() == Axis.Y
              ? new Rectangle2D.Double(at, 0, wide, h)
              : new Rectangle2D.Double(0, at, w, wide);
      g.setColor(new Color(REPEAT.getRed(), REPEAT.getGreen(), REPEAT.getBlue(), 110));
      g.fill(strip);
      outlined(strip, REPEAT, 1.5);
    }
  }

  private void focus() {
    FocusMap f = inspection.capture().focus();
    for (int c = 0; c < f.blurPx().size(); c++) {
      OptionalDouble blur = f.blurPx().get(c);
      if (blur.isPresent()) {
        double x =
            (c % f.columns() + 0.5) / f.columns() * inspection.subject().photo().widthPx() * scale;
        double y =
            (c / f.columns() + 0.5) / f.rows() * inspection.subject().photo().heightPx() * scale;
        disc(g, x, y, blur.getAsDouble(), unit, HALO);
      }
    }
  }

  /** A disc of a blur, also for the legend. */
  static void disc(Graphics2D g, double x, double y, double blurPx, double unit, Color halo) {
    double r = radius(blurPx) * unit;
    Ellipse2D circle = new Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
    Color color = blurPx >= SOFT_PX ? SOFT_DISC : DISC;
    g.setColor(new Color(color.getRed(), color.getGreen(), color.getBlue(), 120));
    g.fill(circle);
    g.setStroke(new BasicStroke((float) (3.4 * unit)));
    g.setColor(halo);
    g.draw(circle);
    g.setStroke(new BasicStroke((float) (1.6 * unit)));
    g.setColor(color);
    g.draw(circle);
  }

  static double radius(double blurPx) {
    return 4 + 7 * blurPx;
  }

  /** Bold and plain text of the legend. */
  static void text(Graphics2D g, String words, boolean bold, double size, double x, double y) {
    Lettering.of(g, words, bold ? Font.BOLD : Font.PLAIN, size)
        .draw(x, y, bold ? new Color(0x1C2430) : new Color(0x5A6472));
  }
}
