package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.features.damage.DamageKind;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * Takes damaged places out of the regions: what is hidden belongs to no class. Each place becomes
 * an unclear region of its own, outlined on the cells of the damage map.
 */
public final class DamagedPlaces {
  /** Confidence of a missing field: that every pixel is equal leaves no doubt. */
  private static final double SURE = 0.99;

  /**
   * Confidence of a damaged place: about half of the area called damaged on drawn dies truly is.
   */
  private static final double CONFIDENCE = 0.5;

  /** Parts of a region smaller than this many tiles are dropped when damage cuts them off. */
  private static final double LEAST_TILES = 2;

  /** Share of an array that must be seen: of what lies below dirt alone nothing is known. */
  private static final double LEAST_SEEN = 0.5;

  private final DamageMap damage;
  private final TileGrid grid;
  private final Map<Integer, Polygon> outlines = new HashMap<>();
  private final Map<Integer, PreparedGeometry> prepared = new HashMap<>();

  /** Parts of regions that a scratch stays in. */
  private final Map<Integer, List<Polygon>> kept = new HashMap<>();

  private DamagedPlaces(DamageMap damage, TileGrid grid) {
    this.damage = damage;
    this.grid = grid;
    for (DamageMap.Place p : damage.places()) {
      polygon(p).ifPresent(o -> outlines.put(p.id(), o));
    }
    outlines.forEach((id, o) -> prepared.put(id, PreparedGeometryFactory.prepare(o)));
  }

  /**
   * Cuts the regions.
   *
   * <p>A scratch that would cut a region in two stays in it: it hides next to nothing, and two
   * halves would count as two blocks. Bit-cell arrays are not cut, because the cells go on below
   * the dirt; only crumbs of the region that are dropped leave them too.
   *
   * @param regions without overlaps, from {@link RegionBuilder}
   * @return the regions without damaged places, and those places, in the order of {@link
   *     RegionBuilder}
   */
  public static List<DieRegion> cut(List<DieRegion> regions, DamageMap damage, TileGrid grid) {
    if (damage.places().isEmpty()) {
      return regions;
    }
    DamagedPlaces places = new DamagedPlaces(damage, grid);
    List<DieRegion> out = new ArrayList<>();
    regions.forEach(r -> places.cut(r, out));
    for (DamageMap.Place p : damage.places()) {
      if (places.outlines.containsKey(p.id())) {
        places.free(p).forEach(part -> out.add(places.region(p, part)));
      }
    }
    out.sort(
        Comparator.comparingInt((DieRegion r) -> r.dieClass().code())
            .thenComparing(DamagedPlaces::hides)
            .thenComparing(r -> -r.outline().getArea()));
    return out;
  }

  /** Whether a region is a place that is hidden or missing, so that nothing of the die is seen. */
  public static boolean hides(DieRegion region) {
    return region.reason().filter(UnclearReason::hides).isPresent();
  }

  private void cut(DieRegion region, List<DieRegion> out) {
    List<Geometry> solid = new ArrayList<>();
    List<DamageMap.Place> scratches = new ArrayList<>();
    for (DamageMap.Place p : damage.places()) {
      if (!outlines.containsKey(p.id()) || !prepared.get(p.id()).intersects(region.outline())) {
        continue;
      }
      if (p.kind() == DamageKind.SCRATCH) {
        scratches.add(p);
      } else {
        solid.add(outlines.get(p.id()));
      }
    }
    if (solid.isEmpty() && scratches.isEmpty()) {
      out.add(region);
      return;
    }
    List<Polygon> parts = without(List.of(region.outline()), solid);
    for (DamageMap.Place p : scratches) {
      List<Polygon> fewer = without(parts, List.of(outlines.get(p.id())));
      if (fewer.size() > parts.size()) {
        kept.computeIfAbsent(p.id(), id -> new ArrayList<>()).addAll(parts);
      } else {
        parts = fewer;
      }
    }
    for (Polygon part : parts) {
      List<Polygon> arrays =
          parts.size() == 1
              ? withoutCrumbs(region, part, solid, outlines(scratches))
              : region.arrays().stream()
                  .flatMap(a -> TileShapes.parts(a.intersection(part)).stream())
                  .toList();
      out.add(
          new DieRegion(
              region.dieClass(),
              region.reason(),
              part,
              arrays,
              region.probabilities(),
              region.confidence(),
              region.tiles(),
              region.bondPads()));
    }
  }

  private List<Geometry> outlines(List<DamageMap.Place> of) {
    List<Geometry> out = new ArrayList<>();
    of.forEach(p -> out.add(outlines.get(p.id())));
    return out;
  }

  private static List<Polygon> withoutCrumbs(
      DieRegion region, Polygon part, List<Geometry> solid, List<Geometry> scratches) {
    if (region.arrays().isEmpty()) {
      return List.of();
    }
    Geometry crumbs = region.outline().difference(part);
    for (List<Geometry> hidden : List.of(solid, scratches)) {
      for (Geometry h : hidden) {
        crumbs = crumbs.difference(h);
      }
    }
    Geometry lost = TileShapes.areas(crumbs);
    return region.arrays().stream()
        .flatMap(
            a -> a.intersects(lost) ? TileShapes.parts(a.difference(lost)).stream() : Stream.of(a))
        .filter(a -> a.intersection(part).getArea() >= LEAST_SEEN * a.getArea())
        .toList();
  }

  private List<Polygon> without(List<Polygon> from, List<Geometry> hidden) {
    if (hidden.isEmpty()) {
      return from;
    }
    Geometry all = TileShapes.areas(UnaryUnionOp.union(hidden));
    List<Polygon> out = new ArrayList<>();
    for (Polygon p : from) {
      for (Polygon part : TileShapes.parts(p.difference(all))) {
        if (part.getArea() >= LEAST_TILES * grid.tilePx() * grid.tilePx()) {
          out.add(part);
        }
      }
    }
    return out;
  }

  /**
   * What of a place lies in no region that kept it: a scratch stays in what it would cut in two.
   */
  private List<Polygon> free(DamageMap.Place place) {
    Polygon whole = outlines.get(place.id());
    List<Polygon> inside = kept.getOrDefault(place.id(), List.of());
    return inside.isEmpty()
        ? List.of(whole)
        : TileShapes.parts(whole.difference(TileShapes.areas(UnaryUnionOp.union(inside))));
  }

  private DieRegion region(DamageMap.Place place, Polygon part) {
    Map<DieClass, Double> unknown = new EnumMap<>(DieClass.class);
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE && c != DieClass.UNCLEAR) {
        unknown.put(c, 0.25);
      }
    }
    boolean missing = place.kind() == DamageKind.MISSING;
    int tiles = Math.max(1, place.cells() / (FineMap.PER_TILE * FineMap.PER_TILE));
    return new DieRegion(
        DieClass.UNCLEAR,
        Optional.of(missing ? UnclearReason.MISSING : UnclearReason.DAMAGED),
        part,
        List.of(),
        unknown,
        missing ? SURE : CONFIDENCE,
        tiles,
        Optional.empty());
  }

  /** Outline of a place in px of the upright raster; empty where nothing of it lies on the grid. */
  private Optional<Polygon> polygon(DamageMap.Place place) {
    double s = grid.tilePx() / FineMap.PER_TILE;
    PixelRect b = place.bounds();
    List<Geometry> runs = new ArrayList<>();
    for (int r = b.y(); r < b.y() + b.height(); r++) {
      int c = b.x();
      while (c < b.x() + b.width()) {
        int end = c;
        while (end < b.x() + b.width() && damage.placeAt(r, end) == place.id()) {
          end++;
        }
        double right = Math.min(grid.width(), end * s);
        double bottom = Math.min(grid.height(), (r + 1) * s);
        if (right > c * s && bottom > r * s && end > c) {
          runs.add(TileShapes.rectangle(c * s, r * s, right, bottom));
        }
        c = Math.max(end, c + 1);
      }
    }
    return runs.isEmpty()
        ? Optional.empty()
        : TileShapes.parts(UnaryUnionOp.union(runs)).stream().findFirst();
  }
}
