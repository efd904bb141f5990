package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How much of a memory macro is bit cells: bits x cell / area = 1 / (1 + k / sqrt(bits)). Decoders
 * and sense amplifiers grow with the sides of the array, bits with its area; hence the root. The
 * form is ours, fitted on macros of open processes (resource {@code macros.csv}).
 *
 * @param logMedian mean over the families of the mean of ln k within each
 * @param logSd standard deviation of ln k for a macro of a family not yet seen: the scatter of
 *     families times sqrt(1 + 1/n), joined with that within them
 */
public record MacroEfficiency(double logMedian, double logSd) {

  /**
   * A macro whose bits and areas are published.
   *
   * @param family macros made alike
   * @param name its name
   * @param bits stored bits
   * @param areaUm2 area of the whole macro
   * @param cellUm2 area of a bit cell
   */
  public record Macro(String family, String name, double bits, double areaUm2, double cellUm2) {
    double k() {
      return (areaUm2 / (bits * cellUm2) - 1) * Math.sqrt(bits);
    }
  }

  /** The published macros that the shipped fit rests on. */
  public static List<Macro> published() {
    List<Macro> all = new ArrayList<>();
    List<List<String>> rows = CsvRows.of(DensityTable.resource("macros.csv"));
    for (List<String> r : rows.subList(1, rows.size())) {
      all.add(
          new Macro(
              r.get(0),
              r.get(1),
              Double.parseDouble(r.get(2)),
              Double.parseDouble(r.get(3)),
              Double.parseDouble(r.get(4))));
    }
    return all;
  }

  /** The fit on all published macros. */
  public static MacroEfficiency shipped() {
    return Shipped.FIT;
  }

  private static final class Shipped {
    static final MacroEfficiency FIT = fit(published());
  }

  /**
   * Fits k: families weigh alike, since macros of one family are no independent witnesses.
   *
   * @param macros of at least two families
   */
  public static MacroEfficiency fit(List<Macro> macros) {
    Map<String, List<Double>> families = new LinkedHashMap<>();
    for (Macro m : macros) {
      families.computeIfAbsent(m.family(), f -> new ArrayList<>()).add(Math.log(m.k()));
    }
    int n = families.size();
    if (n < 2) {
      throw new IllegalArgumentException("needs macros of at least two families, had " + n);
    }
    double[] means = new double[n];
    double within = 0;
    int i = 0;
    for (List<Double> logs : families.values()) {
      double mean = logs.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
      within += logs.stream().mapToDouble(v -> (v - mean) * (v - mean)).sum();
      means[i++] = mean;
    }
    within /= Math.max(1, macros.size() - n);
    double mean = 0;
    for (double m : means) {
      mean += m / n;
    }
    double between = 0;
    for (double m : means) {
      between += (m - mean) * (m - mean) / (n - 1);
    }
    return new MacroEfficiency(mean, Math.sqrt(between * (1 + 1.0 / n) + within));
  }

  /** k at a standard normal deviate. */
  public double k(double z) {
    return Math.exp(logMedian + z * logSd);
  }

  /**
   * Bits of a macro: b + k sqrt(b) = area / cell, solved for b.
   *
   * @param cells area over cell area
   * @param k above 0
   */
  public static double bits(double cells, double k) {
    double root = (Math.sqrt(k * k + 4 * cells) - k) / 2;
    return root * root;
  }
}
