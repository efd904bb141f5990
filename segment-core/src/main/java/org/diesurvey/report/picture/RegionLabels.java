package org.diesurvey.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.SurveyRegion;

/**
 * Labels of regions: inside where there is room, else to the right of the region. Labels never
 * overlap; where two would, the region with more room keeps its own.
 */
final class RegionLabels {
  private static final Color INK = new Color(0x1C2430);
  private static final Color PLATE = new Color(255, 255, 255, 235);

  /** Radius of the largest circle in a region, in units, below which a label would hide it. */
  private static final double ROOM_FOR_A_LABEL = 7;

  private RegionLabels() {}

  private record Place(SurveyRegion region, LabelSpot spot) {}

  /**
   * @param scale picture px per photo px
   * @param unit size of strokes and letters
   */
  static void draw(Graphics2D g, List<SurveyRegion> regions, double scale, double unit) {
    List<Place> places = new ArrayList<>();
    for (SurveyRegion r : regions) {
      places.add(new Place(r, LabelSpot.in(r.inPhoto().outline())));
    }
    places.sort(Comparator.comparingDouble((Place p) -> -p.spot.radius()));
    List<Rectangle2D> taken = new ArrayList<>();
    for (Place p : places) {
      label(g, p, scale, unit, taken);
    }
  }

  private static void label(
      Graphics2D g, Place place, double scale, double unit, List<Rectangle2D> taken) {
    LabelSpot spot = place.spot;
    SurveyRegion r = place.region;
    double room = spot.radius() * scale / unit;
    boolean beside = room < ROOM_FOR_A_LABEL;
    if (beside && r.dieClass() == DieClass.UNCLEAR) {
      return;
    }
    double size = unit * Math.min(34, Math.max(17, 0.75 * room));
    Lettering text = Lettering.of(g, r.id(), Font.BOLD, size);
    double padding = 0.28 * size;
    double w = text.width() + 2 * padding;
    double h = text.capHeight() + 2 * padding;
    double right = r.inPhoto().outline().shell().stream().mapToDouble(Point::x).max().getAsDouble();
    double x = beside ? right * scale + 5 * unit : spot.x() * scale - w / 2;
    double y = spot.y() * scale - h / 2;
    RoundRectangle2D plate = new RoundRectangle2D.Double(x, y, w, h, h / 2, h / 2);
    if (taken.stream().anyMatch(t -> t.intersects(plate.getBounds2D()))) {
      return;
    }
    taken.add(plate.getBounds2D());
    g.setColor(PLATE);
    g.fill(plate);
    g.setColor(ClassStyle.of(r.dieClass(), r.verdict().reason()).color());
    g.setStroke(new BasicStroke((float) (2.2 * unit)));
    g.draw(plate);
    text.draw(x + padding, y + h - padding, INK);
  }
}
