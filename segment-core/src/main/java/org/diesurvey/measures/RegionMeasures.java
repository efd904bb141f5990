package org.diesurvey.measures;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.locationtech.jts.geom.Polygon;

/**
 * Areas of outlines, with the uncertainty of the pixel pitch and of the outline itself.
 *
 * <p>Outline: each side of a region is off by a distance of its own, the same all along the side,
 * with standard uncertainty {@link #edgeUm}. A side of length l that is off by b encloses l b too
 * many, so the variance of a rectangle w by h is 2 (w^2 + h^2) u(b)^2. The model in use is half the
 * length of the outline times u(b): (w + h) u(b) for a rectangle, the same for a square, 2.6 % too
 * small for 8 by 5 and 14 % for 4 by 1. It needs no sides, which a traced outline of many short
 * steps does not have, and u(b) was measured with it on drawn dies (docs/results/areas.md). Were
 * all sides off together, as after a blur, it would be the whole length; of snapped sides each is
 * found for itself.
 */
public final class RegionMeasures {
  /** Standard uncertainty of the place of a block's edge, um, common along the edge. */
  private static final double EDGE_UM = 7;

  /** The same of hard macros, whose edges are often sparse. */
  private static final double MACRO_EDGE_UM = 12;

  private RegionMeasures() {}

  /**
   * Standard uncertainty of the place of one side of a region, um, common along that side. Measured
   * on drawn dies: see docs/results/areas.md.
   */
  public static double edgeUm(DieClass dieClass) {
    return dieClass == DieClass.HARD_MACRO ? MACRO_EDGE_UM : EDGE_UM;
  }

  /**
   * Area of one outline.
   *
   * @param outline in px of the photograph's size, any rotation
   * @param of class whose edges these are
   * @param umPerPx pixel pitch
   * @return mm2
   */
  public static MeasuredArea areaMm2(Polygon outline, DieClass of, Measured umPerPx) {
    return AreaUncertainty.ofCountMm2(count(outline, of, umPerPx), umPerPx);
  }

  /**
   * Area of several outlines of one die: the pitch is common to all, the edges are independent.
   *
   * @param outlines in px of the photograph's size
   * @param of class whose edges these are
   * @param umPerPx pixel pitch
   * @return mm2
   */
  public static MeasuredArea totalMm2(Iterable<Polygon> outlines, DieClass of, Measured umPerPx) {
    List<Measured> counts = new ArrayList<>();
    for (Polygon p : outlines) {
      counts.add(count(p, of, umPerPx));
    }
    return AreaUncertainty.totalMm2(counts, umPerPx);
  }

  /**
   * Area of an outline without some inner ones: the edges of both are independent.
   *
   * @param outline in px of the photograph's size
   * @param inner within the outline, without overlaps
   * @param of class whose edges these are
   * @param umPerPx pixel pitch
   * @return mm2
   */
  public static MeasuredArea restMm2(
      Polygon outline, Iterable<Polygon> inner, DieClass of, Measured umPerPx) {
    Measured rest = count(outline, of, umPerPx);
    for (Polygon p : inner) {
      Measured part = count(p, of, umPerPx);
      rest =
          new Measured(
              Math.max(0, rest.value() - part.value()),
              Math.hypot(rest.standardUncertainty(), part.standardUncertainty()));
    }
    return AreaUncertainty.ofCountMm2(rest, umPerPx);
  }

  /** Square pixels of an outline, with the uncertainty of its sides. */
  private static Measured count(Polygon outline, DieClass of, Measured umPerPx) {
    double edgePx = edgeUm(of) / umPerPx.value();
    return new Measured(outline.getArea(), outline.getLength() / 2 * edgePx);
  }
}
