package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Paint;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.diesurvey.classification.DieClass;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The photograph with the survey drawn on it: translucent hatched fills, crisp outlines, labels,
 * the die edge; a title above, the legend and the scale bar below.
 */
public final class OverlayPicture {
  /** Long side of the photograph in the picture, px. */
  static final int LONGEST_PX = 2400;

  private static final Color INK = new Color(0x1C2430);
  private static final Color SHADE = new Color(28, 36, 48, 90);
  private static final Color PALE = new Color(0xD4D4D4);
  private static final Color HALO = new Color(255, 255, 255, 205);

  private final Survey survey;
  private final double scale;
  private final double unit;
  private final Map<ClassStyle, Paint> paints = new HashMap<>();

  private OverlayPicture(Survey survey, ReducedPhoto photo) {
    this.survey = survey;
    scale = photo.scale();
    unit = unit(photo.image());
  }

  /** Size of strokes and letters follows the picture: 1 at 2000 px; never too small to read. */
  private static double unit(BufferedImage photo) {
    return Math.max(0.55, Math.max(photo.getWidth(), photo.getHeight()) / 2000.0);
  }

  /** Draws the picture; the photo must be the one that was surveyed. */
  public static BufferedImage of(Survey survey, PixelSource source) {
    return of(survey, ReducedPhoto.of(source, LONGEST_PX));
  }

  /** Draws the picture on that of the photograph, once. */
  public static BufferedImage of(Survey survey, PhotoPictures pictures) {
    return of(survey, pictures.reduced());
  }

  private static BufferedImage of(Survey survey, ReducedPhoto photo) {
    BufferedImage image = photo.image();
    Graphics2D g = image.createGraphics();
    smooth(g);
    new OverlayPicture(survey, photo).draw(g);
    g.dispose();
    return OverlayFrame.around(survey, image, photo.scale(), unit(image));
  }

  public static void smooth(Graphics2D g) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
  }

  private void draw(Graphics2D g) {
    List<SurveyRegion> regions = survey.regions();
    for (SurveyRegion r : regions) {
      g.setPaint(
          paints.computeIfAbsent(ClassStyle.of(r.dieClass(), r.verdict().reason()), this::hatch));
      g.fill(path(r.inPhoto().outline()));
    }
    // The last class first: where two regions share an edge, the rarer class shows its colour.
    for (int i = regions.size() - 1; i >= 0; i--) {
      SurveyRegion r = regions.get(i);
      ClassStyle style = ClassStyle.of(r.dieClass(), r.verdict().reason());
      outline(g, path(r.inPhoto().outline()), r.dieClass(), style, unit);
    }
    for (SurveyRegion r : regions) {
      for (Outline array : r.inPhoto().bitCellArrays()) {
        Path2D path = path(array);
        stroke(g, path, HALO, 2.6 * unit, null);
        stroke(g, path, INK, 1.3 * unit, dash(6));
      }
    }
    if (survey.die().edgeFound()) {
      Path2D die = new Path2D.Double(Path2D.WIND_EVEN_ODD);
      ring(die, survey.die().outlinePx());
      stroke(g, die, INK, 5.5 * unit, null);
      stroke(g, die, Color.WHITE, 2.5 * unit, null);
    }
    RegionLabels.draw(g, regions, scale, unit);
  }

  /** The line around a region, and around its sample in the legend. */
  static void outline(Graphics2D g, Shape shape, DieClass dieClass, ClassStyle style, double unit) {
    boolean unclear = dieClass == DieClass.UNCLEAR;
    double width = unclear ? 1.6 * unit : 3 * unit;
    float[] dash = unclear ? new float[] {(float) (9 * unit), (float) (6.3 * unit)} : null;
    stroke(g, shape, unclear ? SHADE : HALO, width + 2.4 * unit, null);
    stroke(g, shape, unclear ? PALE : style.color(), width, dash);
  }

  private Paint hatch(ClassStyle style) {
    return HatchPaint.of(style, (int) Math.round(14 * unit), 1.5 * unit);
  }

  private float[] dash(double length) {
    return new float[] {(float) (length * unit), (float) (0.7 * length * unit)};
  }

  private static void stroke(Graphics2D g, Shape path, Color color, double width, float[] dash) {
    g.setColor(color);
    g.setStroke(
        new BasicStroke(
            (float) width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, dash, 0f));
    g.draw(path);
  }

  private Path2D path(Outline outline) {
    Path2D path = new Path2D.Double(Path2D.WIND_EVEN_ODD);
    ring(path, outline.shell());
    outline.holes().forEach(hole -> ring(path, hole));
    return path;
  }

  private void ring(Path2D path, List<Point> ring) {
    path.moveTo(ring.get(0).x() * scale, ring.get(0).y() * scale);
    for (Point p : ring.subList(1, ring.size())) {
      path.lineTo(p.x() * scale, p.y() * scale);
    }
    path.closePath();
  }
}
