package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Outline;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * Lays outlines that were read and checked onto the upright die, refuses what lies outside it, and
 * cuts unclear area where it lies under other regions, since classes win over it.
 */
final class OutlinePlacing {
  /** How far an outline may reach over the die's edge, as a share of the longer side. */
  private static final double OVER_EDGE = 0.01;

  /** Bit-cell arrays may overlap, or reach out of their memory, by this share of the smaller. */
  private static final double OVERLAP_SHARE = 0.01;

  /** Slivers left of cut unclear area, px of the upright raster, that are no region. */
  private static final double SLIVER_PX2 = 4;

  private final HandOutlines file;
  private final PreparedDie die;
  private final PlaneMap toUpright;

  /**
   * @param umPerUprightPx pitch of the upright raster; a guess where there is no scale
   */
  OutlinePlacing(HandOutlines file, PreparedDie die, double umPerUprightPx) {
    this.file = file;
    this.die = die;
    this.toUpright =
        file.inUm()
            ? new PlaneTransform(1 / umPerUprightPx, 0, 0, 0, -1 / umPerUprightPx, die.height())
            : die.uprightToPhoto().inverse();
  }

  /**
   * The regions by their ids, in the order of the file; parts of a cut region have ids like
   * "UNC1-2".
   *
   * @throws DieInputException OUTLINES_INVALID
   */
  Map<String, DieRegion> regions() {
    Map<String, DieRegion> all = new LinkedHashMap<>();
    List<Polygon> unclear = new ArrayList<>();
    for (HandOutline h : file.regions()) {
      if (h.dieClass() == DieClass.UNCLEAR) {
        unclear.add(polygon(h.id(), h.outline()));
      }
    }
    for (HandOutline h : file.regions()) {
      Polygon outline = polygon(h.id(), h.outline());
      List<Polygon> arrays = arrays(h, outline, unclear);
      if (h.dieClass() != DieClass.UNCLEAR) {
        all.put(h.id(), region(h, outline, arrays));
      }
    }
    for (HandOutline h : file.regions()) {
      if (h.dieClass() == DieClass.UNCLEAR) {
        int part = 0;
        for (Polygon p : uncovered(polygon(h.id(), h.outline()), all)) {
          part++;
          all.put(part == 1 ? h.id() : h.id() + "-" + part, region(h, p, List.of()));
        }
      }
    }
    return all;
  }

  private List<Polygon> uncovered(Polygon unclear, Map<String, DieRegion> others) {
    Geometry left = unclear;
    for (DieRegion r : others.values()) {
      if (left.getEnvelopeInternal().intersects(r.outline().getEnvelopeInternal())) {
        left = left.difference(r.outline());
      }
    }
    List<Polygon> parts = new ArrayList<>();
    for (int i = 0; i < left.getNumGeometries(); i++) {
      if (left.getGeometryN(i) instanceof Polygon p && p.getArea() > SLIVER_PX2) {
        parts.add(p);
      }
    }
    return parts;
  }

  private static DieRegion region(HandOutline h, Polygon outline, List<Polygon> arrays) {
    return new DieRegion(
        h.dieClass(),
        h.reason(),
        outline,
        arrays,
        h.reason().isPresent() ? Map.of() : Map.of(h.dieClass(), 1.0),
        1,
        0,
        Optional.empty());
  }

  /** Bit-cell arrays run on below dirt, so they may reach over unclear ground, as surveys do. */
  private List<Polygon> arrays(HandOutline h, Polygon outline, List<Polygon> unclear) {
    List<Polygon> arrays = new ArrayList<>();
    for (Outline a : h.arrays()) {
      Polygon array = polygon("a bit-cell array of " + h.id(), a);
      Geometry outside = array.difference(outline);
      for (Polygon u : unclear) {
        if (outside.getEnvelopeInternal().intersects(u.getEnvelopeInternal())) {
          outside = outside.difference(u);
        }
      }
      if (outside.getArea() > OVERLAP_SHARE * array.getArea()) {
        throw refused("a bit-cell array of '" + h.id() + "' reaches out of it", "draw it inside");
      }
      for (Polygon b : arrays) {
        double both = array.intersection(b).getArea();
        if (both > OVERLAP_SHARE * Math.min(array.getArea(), b.getArea())) {
          throw refused("bit-cell arrays of '" + h.id() + "' overlap", "draw them apart");
        }
      }
      arrays.add(array);
    }
    return arrays;
  }

  private Polygon polygon(String id, Outline outline) {
    Polygon p = (Polygon) OutlineShapes.polygon(outline).copy();
    p.apply(
        (Coordinate c) -> {
          double x = toUpright.x(c.x, c.y);
          c.y = toUpright.y(c.x, c.y);
          c.x = x;
        });
    p.geometryChanged();
    double room = OVER_EDGE * Math.max(die.width(), die.height());
    Envelope frame = new Envelope(-room, die.width() + room, -room, die.height() + room);
    if (!frame.covers(p.getEnvelopeInternal())) {
      throw refused(
          "the outline of '"
              + id
              + "' reaches out of the "
              + (die.edgeFound() ? "die found in the photograph" : "photograph"),
          "check that the outlines, their unit and the photograph belong together");
    }
    return p;
  }

  private DieInputException refused(String why, String remedy) {
    return new DieInputException(
        Reason.OUTLINES_INVALID,
        file.fileName() + ": these outlines cannot be used: " + why + "; " + remedy + ".");
  }
}
