package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.quantity.Interval;
import org.diesurvey.quantity.ShareInterval;

/** Estimates beside the truth as text. */
public final class EstimateText {
  private EstimateText() {}

  /** One line a case, and one a basis and kind: how many intervals hold, median error. */
  public static String of(List<EstimateCase> cases) {
    StringBuilder s = new StringBuilder();
    s.append(
        String.format(
            "%-14s %-28s %-18s %12s %12s %12s %12s %8s %s%n",
            "die", "areas from", "amount", "true", "estimate", "low", "high", "error", "inside"));
    for (EstimateCase c : cases) {
      s.append(line(c)).append(System.lineSeparator());
    }
    s.append(System.lineSeparator());
    for (EstimateCase.Basis b : EstimateCase.Basis.values()) {
      for (AmountKind k : List.of(AmountKind.BITS, AmountKind.NAND2)) {
        List<EstimateCase> some =
            cases.stream().filter(c -> c.basis() == b && c.kind() == k).toList();
        if (!some.isEmpty()) {
          s.append(summary(b, k, some));
        }
      }
    }
    return s.toString();
  }

  /** One case in a line. */
  public static String line(EstimateCase c) {
    return String.format(
        Locale.ROOT,
        "%-14s %-28s %-18s %12.0f %12.0f %12.0f %12.0f %+7.0f%% %s",
        c.die(),
        c.basis().words(),
        c.kind().label(),
        c.truth(),
        c.estimate().value(),
        c.estimate().low(),
        c.estimate().high(),
        100 * c.relativeError(),
        c.covered() ? "yes" : "NO");
  }

  private static String summary(EstimateCase.Basis b, AmountKind k, List<EstimateCase> some) {
    int inside = (int) some.stream().filter(EstimateCase::covered).count();
    Interval range = ShareInterval.jeffreys(inside, some.size(), 0.95);
    double[] errors = some.stream().mapToDouble(EstimateCase::relativeError).sorted().toArray();
    double[] sizes = Arrays.stream(errors).map(Math::abs).sorted().toArray();
    double[] widths =
        some.stream()
            .mapToDouble(c -> c.estimate().high() / Math.max(1e-9, c.estimate().low()))
            .sorted()
            .toArray();
    return String.format(
        Locale.ROOT,
        "%s, %s: %d of %d intervals hold the truth (%.1f %%; %.1f to %.1f %%), median error %+.0f"
            + " %%, median size of the error %.0f %%, median high/low %.1f%n",
        b.words(),
        k.label(),
        inside,
        some.size(),
        100.0 * inside / some.size(),
        100 * range.low(),
        100 * range.high(),
        100 * errors[errors.length / 2],
        100 * sizes[sizes.length / 2],
        widths[widths.length / 2]);
  }

  /**
   * The ranges of {@code extent.csv}, fitted again: 2.5 % point, median and 97.5 % point of true
   * over found area.
   *
   * @param name of the row
   * @param trueOverFound one value a die
   */
  public static String extent(String name, List<Double> trueOverFound) {
    List<Double> sorted = new ArrayList<>(trueOverFound);
    sorted.sort(null);
    int n = sorted.size();
    if (n == 0) {
      return name + ",no dies" + System.lineSeparator();
    }
    return String.format(
        Locale.ROOT,
        "%s,%.3f,%.3f,%.3f  (%d dies; 16 %% and 84 %%: %.3f, %.3f)%n",
        name,
        sorted.get((int) Math.round(0.025 * (n - 1))),
        sorted.get((n - 1) / 2),
        sorted.get((int) Math.round(0.975 * (n - 1))),
        n,
        sorted.get((int) Math.round(0.16 * (n - 1))),
        sorted.get((int) Math.round(0.84 * (n - 1))));
  }
}
