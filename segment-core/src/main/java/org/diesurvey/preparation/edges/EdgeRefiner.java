package org.diesurvey.preparation.edges;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PixelPoint;

/**
 * From a rectangle that is roughly known to the die's edge in the full photograph: one straight
 * line for each real side, and from their directions whether the die was tilted.
 */
final class EdgeRefiner {
  /**
   * Opposite edges that converge by less than this share of the die's side are taken as parallel:
   * sawing is no more exact. Chosen on drawn dies whose edges are parallel.
   */
  private static final double LEAST_TILT = 0.006;

  /** Standard uncertainties that a convergence must exceed. */
  private static final double TILT_SIGMAS = 5;

  /** Share of places on the line from which a side is clean enough to tell a tilt. */
  private static final double CLEAN_SHARE = 0.85;

  /** How much wider broken edges scatter than sawn ones. Chosen on drawn dies. */
  private static final double BROKEN = 2;

  private final PixelSource source;
  private final Overview overview;
  private final float[] background;
  private final EdgeTuning tuning;

  EdgeRefiner(PixelSource source, Overview overview, float[] background, EdgeTuning tuning) {
    this.source = source;
    this.overview = overview;
    this.background = background;
    this.tuning = tuning;
  }

  /** The edge, or empty where a side that should be real is not seen. */
  Optional<DieEdge> refine(CoarseDieRectangle rough) {
    // The second pass starts from the first one's lines, so that its search strips are narrow and
    // straight.
    return pass(rough, false)
        .flatMap(e -> pass(CoarseDieRectangle.of(e, overview.factor() * 2.0), false));
  }

  /** The same for broken edges, whose scatter is wider; the uncertainty grows with it. */
  Optional<DieEdge> refineBroken(CoarseDieRectangle rough) {
    return pass(rough, true).flatMap(e -> pass(CoarseDieRectangle.of(e, rough.slackPx()), true));
  }

  /** Unit vector along a side: rightward or downward. */
  private static double[] along(DieSide side, double ux, double uy) {
    return side.along() == Axis.X ? new double[] {ux, uy} : new double[] {-uy, ux};
  }

  private static double[] outward(DieSide side, double ux, double uy) {
    return switch (side) {
      case UPPER -> new double[] {uy, -ux};
      case RIGHT -> new double[] {ux, uy};
      case LOWER -> new double[] {-uy, ux};
      case LEFT -> new double[] {-ux, -uy};
    };
  }

  private Optional<DieEdge> pass(CoarseDieRectangle r, boolean broken) {
    Map<DieSide, EdgeLine> lines = new EnumMap<>(DieSide.class);
    Map<DieSide, Double> turns = new EnumMap<>(DieSide.class);
    double strange = 0;
    double turn = 0;
    double residual = 0;
    int n = r.real().size();
    for (DieSide side : DieSide.values()) {
      boolean flat = side.along() == Axis.X;
      if (!r.real().contains(side)) {
        lines.put(side, new EdgeLine(0, 0, 1, 0, 0));
        continue;
      }
      double own = r.angle() + r.skews().get(side);
      double ux = Math.cos(own);
      double uy = Math.sin(own);
      EdgeProfiles profiles =
          new EdgeProfiles(
              source,
              overview,
              background,
              r,
              along(side, ux, uy),
              outward(side, ux, uy),
              (flat ? r.h() : r.w()) / 2,
              flat ? r.w() : r.h());
      if (!profiles.inPicture()) {
        return Optional.empty();
      }
      strange += profiles.strangenessOutside() / n;
      EdgeLine l = profiles.line(broken ? BROKEN : 1);
      if (l.inlierShare() < tuning.seen()) {
        return Optional.empty();
      }
      lines.put(side, l);
      // Offsets grow outward; a clockwise turn lowers the top's right end, hence the signs.
      boolean growing = side == DieSide.LOWER || side == DieSide.LEFT;
      double sideTurn = r.skews().get(side) + Math.atan((growing ? 1 : -1) * l.slope());
      turns.put(side, sideTurn);
      turn += sideTurn / n;
      // The outline of a broken side is no mean: its whole scatter counts.
      double independent = broken ? 1 : Math.max(1, l.inliers() / 4.0);
      residual = Math.max(residual, l.residualPx() / Math.sqrt(independent));
    }
    if (strange > tuning.strange()) {
      return Optional.empty();
    }
    Map<DieSide, Double> skews = new EnumMap<>(DieSide.class);
    for (DieSide side : DieSide.values()) {
      skews.put(side, r.real().contains(side) ? turns.get(side) - turn : 0);
    }
    return Optional.of(edge(r, lines, skews, r.angle() + turn, Math.max(0.3, residual), broken));
  }

  private DieEdge edge(
      CoarseDieRectangle r,
      Map<DieSide, EdgeLine> lines,
      Map<DieSide, Double> skews,
      double angle,
      double uncertaintyPx,
      boolean broken) {
    double ux = Math.cos(r.angle());
    double uy = Math.sin(r.angle());
    EdgeLine top = lines.get(DieSide.UPPER);
    EdgeLine right = lines.get(DieSide.RIGHT);
    EdgeLine bottom = lines.get(DieSide.LOWER);
    EdgeLine left = lines.get(DieSide.LEFT);
    double width = r.w() + right.offset() + left.offset();
    double height = r.h() + top.offset() + bottom.offset();
    double dx = (right.offset() - left.offset()) / 2;
    double dy = (bottom.offset() - top.offset()) / 2;
    double cx = r.cx() + ux * dx - uy * dy;
    double cy = r.cy() + uy * dx + ux * dy;
    double vx = Math.cos(angle);
    double vy = Math.sin(angle);
    List<PixelPoint> corners = new ArrayList<>();
    for (double[] s : new double[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double a = s[0] * width / 2;
      double b = s[1] * height / 2;
      corners.add(new PixelPoint(cx + vx * a - vy * b, cy + vy * a + vx * b));
    }
    boolean tilted = !broken && r.real().size() == 4 && converges(lines, skews, width, height);
    if (tilted) {
      corners =
          List.of(
              crossing(r, lines, DieSide.UPPER, DieSide.LEFT),
              crossing(r, lines, DieSide.UPPER, DieSide.RIGHT),
              crossing(r, lines, DieSide.LOWER, DieSide.RIGHT),
              crossing(r, lines, DieSide.LOWER, DieSide.LEFT));
    }
    return new DieEdge(
        r.real(), corners, Math.toDegrees(angle), width, height, uncertaintyPx, tilted, skews);
  }

  /** Whether opposite sides come nearer to each other by more than sawing and scatter explain. */
  private static boolean converges(
      Map<DieSide, EdgeLine> lines, Map<DieSide, Double> skews, double width, double height) {
    for (EdgeLine l : lines.values()) {
      if (l.inlierShare() < CLEAN_SHARE) {
        return false;
      }
    }
    double across = skews.get(DieSide.UPPER) - skews.get(DieSide.LOWER);
    double down = skews.get(DieSide.RIGHT) - skews.get(DieSide.LEFT);
    double uAcross =
        Math.hypot(
            slopeUncertainty(lines.get(DieSide.UPPER), width),
            slopeUncertainty(lines.get(DieSide.LOWER), width));
    double uDown =
        Math.hypot(
            slopeUncertainty(lines.get(DieSide.RIGHT), height),
            slopeUncertainty(lines.get(DieSide.LEFT), height));
    return Math.abs(across) * width / height > LEAST_TILT
            && Math.abs(across) > TILT_SIGMAS * uAcross
        || Math.abs(down) * height / width > LEAST_TILT && Math.abs(down) > TILT_SIGMAS * uDown;
  }

  /**
   * Standard uncertainty of a slope, from the scatter over a side of evenly spaced points; every
   * fourth point counts as independent, because chips are longer than the spacing.
   */
  private static double slopeUncertainty(EdgeLine l, double length) {
    return l.residualPx() / Math.sqrt(Math.max(1, l.inliers() / 4.0)) * Math.sqrt(12) / length;
  }

  private static PixelPoint crossing(
      CoarseDieRectangle r, Map<DieSide, EdgeLine> lines, DieSide flat, DieSide upright) {
    double[] p = line(r, lines.get(flat), flat);
    double[] q = line(r, lines.get(upright), upright);
    double det = p[2] * q[3] - p[3] * q[2];
    double t = ((q[0] - p[0]) * q[3] - (q[1] - p[1]) * q[2]) / det;
    return new PixelPoint(p[0] + t * p[2], p[1] + t * p[3]);
  }

  /** Foot and direction of a side's line in the photograph. */
  private static double[] line(CoarseDieRectangle r, EdgeLine l, DieSide side) {
    double own = r.angle() + r.skews().get(side);
    double ux = Math.cos(own);
    double uy = Math.sin(own);
    double[] out = outward(side, ux, uy);
    double[] along = along(side, ux, uy);
    double d = (side.along() == Axis.X ? r.h() : r.w()) / 2 + l.offset();
    return new double[] {
      r.cx() + out[0] * d,
      r.cy() + out[1] * d,
      along[0] + out[0] * l.slope(),
      along[1] + out[1] * l.slope()
    };
  }
}
