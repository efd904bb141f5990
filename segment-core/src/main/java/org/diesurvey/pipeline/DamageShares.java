package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.features.damage.DamageKind;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Preparation.Damage;
import org.diesurvey.survey.Preparation.DamageShare;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Coordinate;

/** Sums damaged regions by what they look like. */
final class DamageShares {
  private DamageShares() {}

  /**
   * @param diePx area of the die in square px of the upright raster
   */
  static List<DamageShare> of(
      List<DieRegion> regions, DamageMap damage, TileGrid grid, double diePx) {
    int[] places = new int[Damage.values().length];
    double[] area = new double[places.length];
    for (DieRegion r : regions) {
      if (r.reason().equals(Optional.of(UnclearReason.DAMAGED))) {
        int kind = kind(r, damage, grid).ordinal();
        places[kind]++;
        area[kind] += r.outline().getArea();
      }
    }
    List<DamageShare> out = new ArrayList<>();
    for (Damage k : Damage.values()) {
      if (places[k.ordinal()] > 0) {
        out.add(new DamageShare(k, places[k.ordinal()], area[k.ordinal()] / diePx));
      }
    }
    return out;
  }

  /** The kind at the region's own inner point. */
  private static Damage kind(DieRegion r, DamageMap damage, TileGrid grid) {
    Coordinate c = r.outline().getInteriorPoint().getCoordinate();
    double cell = grid.tilePx() / FineMap.PER_TILE;
    int row = (int) Math.min(damage.rows() - 1.0, c.y / cell);
    int column = (int) Math.min(damage.columns() - 1.0, c.x / cell);
    return switch (damage.at(row, column).orElse(DamageKind.DARK)) {
      case BRIGHT -> Damage.BRIGHT;
      case SCRATCH -> Damage.SCRATCH;
      // A field that was never photographed is black.
      case DARK, MISSING -> Damage.DARK;
    };
  }
}
