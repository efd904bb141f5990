package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The period of standard-cell rows, and the ways to read it: mirrored rows repeat after two, but
 * where both look alike after one; a peak at two thirds of a row was seen where the strips of a
 * mirrored pair are spaced evenly, and one at half a row where both strips of a row look alike.
 *
 * @param readings row heights in um with their probabilities
 * @param logSd standard uncertainty of the logarithm of the height, the scale's part left out
 * @param words the period, for people
 */
record RowPeriod(Choices<Double> readings, double logSd, String words) {
  private static final double LEAST_SAMPLES = 3;
  private static final double LONGEST_UM = 40;

  // Own choice, after periods of drawn and open rows.
  private static final double TWO_ROWS = 0.43;

  private static final double ONE_ROW = 0.37;
  private static final double TWO_THIRDS = 0.07;
  private static final double HALF_A_ROW = 0.13;

  /** A row has two strips, so nothing shows that it repeats below two samples. */
  private static final double LEAST_SAMPLES_OF_ROW = 2;

  /** Probability that the period is of something else than the rows. */
  private static final double FOREIGN = 0.2;

  /** Density of the logarithm of a foreign period: anything within a factor of 30. */
  private static final double FOREIGN_DENSITY = 1 / Math.log(30);

  /** The rows of the largest logic block that shows them. */
  static Optional<RowPeriod> of(List<LogicBlock> logic, double umPerPx) {
    return logic.stream()
        .sorted(Comparator.comparingDouble((LogicBlock b) -> b.area().um2()).reversed())
        .map(b -> of(b, umPerPx))
        .flatMap(Optional::stream)
        .findFirst();
  }

  /** The rows of one block, if it shows them. */
  static Optional<RowPeriod> of(LogicBlock block, double umPerPx) {
    return block.periods().stream()
        .filter(p -> p.strength() >= TexturePeriod.LEAST_OF_ROWS)
        .filter(p -> p.lengthUm().value() >= LEAST_SAMPLES * umPerPx)
        .filter(p -> p.lengthUm().value() <= LONGEST_UM)
        .max(Comparator.comparingDouble(TexturePeriod::strength))
        .map(
            p -> {
              double v = p.lengthUm().value();
              List<Choices.Option<Double>> readings = new ArrayList<>();
              if (v / 2 >= LEAST_SAMPLES_OF_ROW * umPerPx) {
                readings.add(new Choices.Option<>(TWO_ROWS, v / 2));
              }
              readings.add(new Choices.Option<>(ONE_ROW, v));
              readings.add(new Choices.Option<>(TWO_THIRDS, 1.5 * v));
              readings.add(new Choices.Option<>(HALF_A_ROW, 2 * v));
              return new RowPeriod(
                  new Choices<>(readings),
                  p.lengthUm().relativeUncertainty(),
                  String.format(Locale.ROOT, "%.3g \u00b5m in %s", v, block.id()));
            });
  }

  /**
   * The period read in the light of the rows that a node has. NaN is the reading that the period is
   * of something else, so that only the table is left.
   */
  RowPeriod given(LogRange rows) {
    List<Choices.Option<Double>> all = new ArrayList<>();
    for (Choices.Option<Double> o : readings.options()) {
      double fit = rows.logDensity(o.value(), logSd);
      all.add(new Choices.Option<>((1 - FOREIGN) * o.probability() * fit, o.value()));
    }
    all.add(new Choices.Option<>(FOREIGN * FOREIGN_DENSITY, Double.NaN));
    return new RowPeriod(new Choices<>(all), logSd, words);
  }

  /** How well the rows of a node explain the period, or something else does. */
  double likelihood(LogRange rows) {
    return FOREIGN * FOREIGN_DENSITY + (1 - FOREIGN) * fit(rows);
  }

  /** How well the period fits the rows of a node: density of the logarithm. */
  double fit(LogRange rows) {
    return readings.mean(h -> rows.logDensity(h, logSd));
  }
}
