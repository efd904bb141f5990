package org.diesurvey.interchange;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What is known of an outline in one line, for people who open the file in another program. */
public final class OutlineWords {
  private OutlineWords() {}

  /** Measures and note; empty where there are none. */
  public static String of(ClassedOutline o) {
    List<String> parts = new ArrayList<>();
    o.measures().ifPresent(m -> parts.add(measures(m)));
    o.note().ifPresent(parts::add);
    return String.join("; ", parts);
  }

  /** "0.3904 mm2, standard uncertainty 0.0031 mm2; share 12.30 %; confidence 93 %". */
  public static String measures(StatedMeasures m) {
    List<String> parts = new ArrayList<>();
    m.areaMm2()
        .ifPresentOrElse(
            a ->
                parts.add(
                    significant(a.value(), 6)
                        + " mm2, standard uncertainty "
                        + significant(a.standardUncertainty(), 2)
                        + " mm2"),
            () -> parts.add(String.format(Locale.ROOT, "%.0f px2", m.areaPx())));
    parts.add(String.format(Locale.ROOT, "share %.2f %%", 100 * m.shareOfDie()));
    parts.add(String.format(Locale.ROOT, "confidence %.0f %%", 100 * m.confidence()));
    m.bondPads().ifPresent(n -> parts.add("about " + n + " bond pads"));
    return String.join("; ", parts);
  }

  private static String significant(double v, int digits) {
    return BigDecimal.valueOf(v)
        .round(new MathContext(digits, RoundingMode.HALF_EVEN))
        .toPlainString();
  }
}
