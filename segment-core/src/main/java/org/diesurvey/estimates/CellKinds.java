package org.diesurvey.estimates;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a bit cell may be at a node where its lattice is not resolved. How often each kind occurs is
 * our own choice (common practice, no source): most memories have one port and ordinary devices.
 */
final class CellKinds {
  private static final double ONE_PORT = 0.6;
  private static final double TWO_PORT = 0.25;
  private static final double THICK_OXIDE = 0.15;

  private CellKinds() {}

  /**
   * Cell areas in um2 with their probabilities; empty where the table has none for the node.
   *
   * @param ports stated, if anyone knows
   */
  static Optional<Choices<LogRange>> at(
      DensityTable table, double nodeNm, MemoryKind kind, OptionalInt ports) {
    Optional<LogRange> main = table.at(kind.cell(), nodeNm);
    if (main.isEmpty() || kind != MemoryKind.STATIC) {
      return main.map(r -> new Choices<>(List.of(new Choices.Option<>(1, r))));
    }
    LogRange one = main.get();
    LogRange two =
        table.at(DensityQuantity.BIT_CELL_TWO_PORT_UM2, nodeNm).orElseGet(() -> one.times(2.42));
    LogRange thick = thickOxide(table, one);
    List<Choices.Option<LogRange>> all;
    if (ports.isEmpty()) {
      all =
          List.of(
              new Choices.Option<>(ONE_PORT, one),
              new Choices.Option<>(TWO_PORT, two),
              new Choices.Option<>(THICK_OXIDE, thick));
    } else if (ports.getAsInt() == 1) {
      all = List.of(new Choices.Option<>(ONE_PORT, one), new Choices.Option<>(THICK_OXIDE, thick));
    } else {
      all = List.of(new Choices.Option<>(1, two));
    }
    return Optional.of(new Choices<>(all));
  }

  /** The one-port cell times the ratio, both log-normal: variances of the logarithms add. */
  private static LogRange thickOxide(DensityTable table, LogRange one) {
    LogRange ratio = table.any(DensityQuantity.THICK_OXIDE_CELL_IN_ONE_PORT_CELLS);
    double centre = one.centre() * ratio.centre();
    double low = LogRange.Z95 * Math.hypot(one.lowSd(), ratio.lowSd());
    double high = LogRange.Z95 * Math.hypot(one.highSd(), ratio.highSd());
    return new LogRange(centre * Math.exp(-low), centre, centre * Math.exp(high));
  }
}
