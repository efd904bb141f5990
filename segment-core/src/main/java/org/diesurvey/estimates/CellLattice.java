package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A bit-cell lattice that the photograph resolves in both directions, and the ways to read it. Bit
 * cells are mirrored, so a period is usually two cells, but where the visible layers look alike in
 * both halves it is one.
 *
 * @param readings cell areas in um2 with their probabilities
 * @param logSd standard uncertainty of the logarithm of the area, the scale's part left out
 * @param words the periods, for people
 */
record CellLattice(Choices<Double> readings, double logSd, String words) {
  /** Peaks lower than this are often of something else; chosen on drawn dies. */
  private static final double LEAST_STRENGTH = 0.25;

  /** Samples in a period for a peak that can be relied on (own rule: Nyquist is 2). */
  private static final double LEAST_SAMPLES = 4;

  /** Longer periods are those of straps and sub-arrays, um. */
  private static final double LONGEST_UM = 14;

  /** Probability that a period holds two mirrored cells, for each direction; own choice. */
  private static final double MIRRORED = 0.6;

  /** The lattice of a block, if both its periods are resolved. */
  static Optional<CellLattice> of(List<TexturePeriod> periods, double umPerPx) {
    Optional<TexturePeriod> x = firm(periods, true, umPerPx);
    Optional<TexturePeriod> y = firm(periods, false, umPerPx);
    if (x.isEmpty() || y.isEmpty()) {
      return Optional.empty();
    }
    double px = x.get().lengthUm().value();
    double py = y.get().lengthUm().value();
    List<Choices.Option<Double>> all = new ArrayList<>();
    for (int cx = 1; cx <= 2; cx++) {
      for (int cy = 1; cy <= 2; cy++) {
        double p = (cx == 2 ? MIRRORED : 1 - MIRRORED) * (cy == 2 ? MIRRORED : 1 - MIRRORED);
        all.add(new Choices.Option<>(p, px * py / (cx * cy)));
      }
    }
    double sd =
        Math.hypot(
            x.get().lengthUm().relativeUncertainty(), y.get().lengthUm().relativeUncertainty());
    return Optional.of(
        new CellLattice(
            new Choices<>(all),
            sd,
            String.format(java.util.Locale.ROOT, "%.3g \u00b5m \u00d7 %.3g \u00b5m", px, py)));
  }

  private static Optional<TexturePeriod> firm(
      List<TexturePeriod> periods, boolean alongX, double umPerPx) {
    return periods.stream()
        .filter(p -> p.alongX() == alongX && p.strength() >= LEAST_STRENGTH)
        .filter(p -> p.lengthUm().value() >= LEAST_SAMPLES * umPerPx)
        .filter(p -> p.lengthUm().value() <= LONGEST_UM)
        .findFirst();
  }

  /** The lattice read in the light of the cells that a node can have. */
  CellLattice given(Choices<LogRange> cells) {
    return new CellLattice(
        readings.weighed(a -> cells.mean(r -> r.logDensity(a, logSd)) + 1e-9), logSd, words);
  }

  /** How well the lattice fits the cells of a node: density of the logarithm. */
  double likelihood(Choices<LogRange> cells) {
    return readings.mean(a -> cells.mean(r -> r.logDensity(a, logSd)));
  }
}
