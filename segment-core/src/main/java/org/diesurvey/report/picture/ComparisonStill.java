package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * The two registered photographs side by side with the changes outlined, for print and PDF: places
 * of the earlier die dashed, those of the later solid.
 */
public final class ComparisonStill {
  /** From the colour-blind-safe set of Okabe and Ito (2008), hex values from memory. */
  public static final Color EARLIER = new Color(0x0072B2);

  public static final Color LATER = new Color(0xD55E00);

  private static final Color INK = new Color(0x1C2430);

  /** Long side of each picture, px. */
  private static final int EACH_PX = 1000;

  private static final int GAP = 16;
  private static final int HEAD = 34;

  private ComparisonStill() {}

  public static BufferedImage of(Comparison comparison, RegisteredPictures pictures) {
    BufferedImage a = pictures.first();
    double scale = Math.min(1, (double) EACH_PX / Math.max(a.getWidth(), a.getHeight()));
    int w = Math.max(1, (int) Math.round(scale * a.getWidth()));
    int h = Math.max(1, (int) Math.round(scale * a.getHeight()));
    BufferedImage sheet = new BufferedImage(2 * w + GAP, h + HEAD, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = sheet.createGraphics();
    try {
      g.setColor(Color.WHITE);
      g.fillRect(0, 0, sheet.getWidth(), sheet.getHeight());
      g.setRenderingHint(
          RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
      g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      side(g, pictures, pictures.first(), 0, w, h, "earlier", comparison, true);
      side(g, pictures, pictures.second(), w + GAP, w, h, "later", comparison, false);
    } finally {
      g.dispose();
    }
    return sheet;
  }

  private static void side(
      Graphics2D g,
      RegisteredPictures pictures,
      BufferedImage image,
      int left,
      int w,
      int h,
      String name,
      Comparison comparison,
      boolean earlier) {
    Lettering.of(g, name, Font.PLAIN, 19).draw(left + 2, HEAD - 11, INK);
    g.drawImage(image, left, HEAD, w, h, null);
    double sx = (double) w / image.getWidth();
    double sy = (double) h / image.getHeight();
    List<Rectangle> plates = new ArrayList<>();
    for (Change change : comparison.changes()) {
      List<Outline> outlines = earlier ? change.a().outlines() : change.b().outlines();
      Path2D path = new Path2D.Double(Path2D.WIND_EVEN_ODD);
      for (Outline outline : outlines) {
        ring(path, pictures, outline.shell(), left, sx, sy);
        outline.holes().forEach(hole -> ring(path, pictures, hole, left, sx, sy));
      }
      if (outlines.isEmpty()) {
        continue;
      }
      g.setColor(Color.WHITE);
      g.setStroke(new BasicStroke(5, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
      g.draw(path);
      g.setColor(earlier ? EARLIER : LATER);
      float[] dashes = earlier ? new float[] {9, 5} : null;
      g.setStroke(
          new BasicStroke(2.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, dashes, 0));
      g.draw(path);
      plate(g, change, path.getBounds2D(), new Rectangle(left, HEAD, w, h), plates);
    }
  }

  private static void ring(
      Path2D path, RegisteredPictures p, List<Point> ring, int left, double sx, double sy) {
    for (int i = 0; i < ring.size(); i++) {
      double x = left + sx * p.column(ring.get(i).x());
      double y = HEAD + sy * p.row(ring.get(i).y());
      if (i == 0) {
        path.moveTo(x, y);
      } else {
        path.lineTo(x, y);
      }
    }
    path.closePath();
  }

  /** Name of the change by its outline, inside the picture and clear of the names before it. */
  private static void plate(
      Graphics2D g, Change change, Rectangle2D box, Rectangle picture, List<Rectangle> taken) {
    String text = change.id() + " " + ChangeWords.name(change.kind());
    Lettering words = Lettering.of(g, text, Font.PLAIN, 15);
    int wide = (int) Math.ceil(words.width()) + 10;
    int x = (int) Math.max(picture.x, Math.min(picture.x + picture.width - wide, box.getX()));
    int above = (int) Math.max(picture.y, box.getY() - 22);
    Rectangle plate = new Rectangle(x, above, wide, 20);
    while (taken.stream().anyMatch(plate::intersects)
        && plate.y + 2 * plate.height < picture.y + picture.height) {
      plate.y += plate.height + 1;
    }
    taken.add(plate);
    g.setColor(Color.WHITE);
    g.fill(plate);
    words.draw(plate.x + 5, plate.y + 15, INK);
  }
}
