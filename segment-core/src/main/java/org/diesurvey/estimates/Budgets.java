package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

/**
 * Which cause makes how much of an estimate's uncertainty: each is varied alone, the others held at
 * their medians and most probable choices (JCGM 101:2008 annex B, numbering from memory).
 */
final class Budgets {
  private static final int DRAWS = 1000;

  /** Causes below this are left out, relative. */
  private static final double LEAST = 1e-4;

  private Budgets() {}

  /**
   * Relative standard uncertainty from each cause, those of no effect left out.
   *
   * @param total of the amounts of the model, memories or logic
   */
  static Map<Factor, Double> alone(DieModel model, ToDoubleFunction<double[]> total) {
    Map<Factor, Double> out = new EnumMap<>(Factor.class);
    double[] amounts = new double[model.regions()];
    for (Factor f : Factor.values()) {
      SplittableRandom random = new SplittableRandom(AdaptiveDraws.SEED + f.ordinal());
      Deviates d = model.deviates();
      double sum = 0;
      double square = 0;
      for (int i = 0; i < DRAWS; i++) {
        d.drawOnly(f, random);
        model.amounts(d, amounts);
        double v = Math.log(total.applyAsDouble(amounts));
        sum += v;
        square += v * v;
      }
      double mean = sum / DRAWS;
      double sd = Math.sqrt(Math.max(0, square / DRAWS - mean * mean));
      if (sd >= LEAST) {
        out.put(f, sd);
      }
    }
    return out;
  }

  /** The lines of a budget, largest first. */
  static List<BudgetLine> lines(Map<Factor, Double> alone, Remedies remedies) {
    double variance = alone.values().stream().mapToDouble(v -> v * v).sum();
    List<BudgetLine> lines = new ArrayList<>();
    alone.forEach(
        (f, sd) ->
            lines.add(new BudgetLine(f.title(), sd, sd * sd / variance, remedies.sentence(f, sd))));
    lines.sort(Comparator.comparingDouble(BudgetLine::share).reversed());
    return lines;
  }
}
