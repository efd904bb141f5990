package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A bit-cell lattice that the photograph resolves in both directions, and the ways to read it. Bit
 * cells are mirrored, so a period is usually two cells; where the visible layers look alike in both
 * halves it is one, and where columns are grouped four. On 60 drawn dies only five memories had
 * firm periods in both directions; two pairs held four cells, two about fifteen, and one was of
 * something else: with a node at hand that is a reading too.
 *
 * @param readings cell areas in um2 with their probabilities
 * @param logSd standard uncertainty of the logarithm of the area, the scale's part left out
 * @param words the periods, for people
 */
record CellLattice(Choices<Double> readings, double logSd, String words) {
  /** Samples in a period for a peak that can be relied on (own rule: Nyquist is 2). */
  private static final double LEAST_SAMPLES = 4;

  /** Cells in a period with their probabilities, for each direction; own choice. */
  private static final List<Choices.Option<Integer>> CELLS =
      List.of(
          new Choices.Option<>(0.5, 2),
          new Choices.Option<>(0.32, 1),
          new Choices.Option<>(0.18, 4));

  /** Probability that both periods are of something else than the cells. */
  private static final double FOREIGN = 0.3;

  /** Density of the logarithm of a foreign area: anything within a factor of 30. */
  private static final double FOREIGN_DENSITY = 1 / Math.log(30);

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
    for (Choices.Option<Integer> cx : CELLS) {
      for (Choices.Option<Integer> cy : CELLS) {
        double p = cx.probability() * cy.probability();
        all.add(new Choices.Option<>(p, px * py / (cx.value() * cy.value())));
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
        .filter(p -> p.alongX() == alongX && p.strength() >= TexturePeriod.LEAST_OF_CELLS)
        .filter(p -> p.lengthUm().value() >= LEAST_SAMPLES * umPerPx)
        .filter(p -> p.lengthUm().value() <= TexturePeriod.LONGEST_OF_CELLS_UM)
        .findFirst();
  }

  /**
   * The lattice read in the light of the cells that a node can have. NaN is the reading that the
   * periods are of something else, so that only the table is left.
   */
  CellLattice given(Choices<LogRange> cells) {
    List<Choices.Option<Double>> all = new ArrayList<>();
    for (Choices.Option<Double> o : readings.options()) {
      double fit = cells.mean(r -> r.logDensity(o.value(), logSd));
      all.add(new Choices.Option<>((1 - FOREIGN) * o.probability() * fit, o.value()));
    }
    all.add(new Choices.Option<>(FOREIGN * FOREIGN_DENSITY, Double.NaN));
    return new CellLattice(new Choices<>(all), logSd, words);
  }

  /** How well the cells of a node explain the periods, or something else does. */
  double likelihood(Choices<LogRange> cells) {
    return FOREIGN * FOREIGN_DENSITY + (1 - FOREIGN) * fit(cells);
  }

  /** How well the lattice fits the cells of a node: density of the logarithm. */
  double fit(Choices<LogRange> cells) {
    return readings.mean(a -> cells.mean(r -> r.logDensity(a, logSd)));
  }
}
