package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.regions.ring.BondPads;
import org.locationtech.jts.geom.Polygon;

/**
 * One region of the upright die, before it is measured.
 *
 * @param dieClass its class
 * @param reason why it is unclear, for unclear regions
 * @param outline polygon with holes in px of the upright raster
 * @param arrays bit-cell arrays inside a memory region, px of the upright raster
 * @param probabilities mean probability of the four on-die classes over the tiles; what is missing
 *     to 1 speaks for bare ground
 * @param confidence probability that the class is right, 0 to 1
 * @param tiles number of tiles with this label
 * @param bondPads bond pads or I/O cells counted along a pad ring; empty for other classes and
 *     where nothing repeats clearly
 */
public record DieRegion(
    DieClass dieClass,
    Optional<UnclearReason> reason,
    Polygon outline,
    List<Polygon> arrays,
    Map<DieClass, Double> probabilities,
    double confidence,
    int tiles,
    Optional<BondPads> bondPads) {
  /** Copies the collections. */
  public DieRegion {
    arrays = List.copyOf(arrays);
    probabilities = Map.copyOf(probabilities);
  }

  /** The part of the region in an outline, with what of its arrays lies there. */
  public DieRegion within(Polygon part) {
    List<Polygon> inside = new ArrayList<>();
    for (Polygon a : arrays) {
      inside.addAll(TileShapes.parts(a.intersection(part)));
    }
    return new DieRegion(
        dieClass, reason, part, inside, probabilities, confidence, tiles, bondPads);
  }

  /** The same region, held with another confidence. */
  public DieRegion withConfidence(double other) {
    return new DieRegion(dieClass, reason, outline, arrays, probabilities, other, tiles, bondPads);
  }
}
