package org.diesurvey.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.diesurvey.quantity.UncertaintyBudget.Component;
import org.junit.jupiter.api.Test;

/**
 * The end gauge of JCGM 100:2008 (GUM), annex H.1, as carried by the documentation of the
 * open-source packages GTC (page GUM_H1) and propagate (pages propagate and WelchSatter). Lengths
 * in nm: l = ls + d - ls (dAlpha theta + alpha dTheta).
 */
class UncertaintyBudgetTest {
  private static final double STANDARD_NM = 50_000_623;
  private static final double ALPHA_PER_K = 11.5e-6;
  private static final double THETA_K = -0.1;

  private static final Component STANDARD = new Component("standard", 25, 18);
  private static final Component REPEAT = new Component("repeated reading", 5.8, 24);
  private static final Component RANDOM = new Component("comparator, random", 3.9, 5);
  private static final Component SYSTEMATIC = new Component("comparator, systematic", 6.7, 8);
  private static final Component EXPANSION =
      new Component(
          "difference of expansion",
          STANDARD_NM * Math.abs(THETA_K) * Propagation.rectangular(1e-6),
          50);
  private static final Component TEMPERATURE =
      new Component(
          "difference of temperature",
          STANDARD_NM * ALPHA_PER_K * Propagation.rectangular(0.05),
          2);

  private static final UncertaintyBudget GAUGE =
      new UncertaintyBudget(List.of(STANDARD, REPEAT, RANDOM, SYSTEMATIC, EXPANSION, TEMPERATURE));

  @Test
  void components_agreeWithTheAnnex() {
    assertEquals(2.88679, EXPANSION.contribution(), 1e-4);
    assertEquals(16.599, TEMPERATURE.contribution(), 1e-3);
    UncertaintyBudget difference = new UncertaintyBudget(List.of(REPEAT, RANDOM, SYSTEMATIC));
    assertEquals(9.7, difference.combined(), 0.05);
    // The annex computes 25.6 from the rounded 9.7; unrounded contributions give 25.4.
    assertEquals(25.6, difference.effectiveDegreesOfFreedom(), 0.2);
  }

  @Test
  void gauge_firstOrder_is32Nm() {
    assertEquals(31.66, GAUGE.combined(), 0.01);
    assertEquals(32, Math.rint(GAUGE.combined()));
  }

  @Test
  void gauge_expandedAt99Percent_is93Nm() {
    assertEquals(16.76, GAUGE.effectiveDegreesOfFreedom(), 0.05);
    assertEquals(2.92, GAUGE.coverageFactor(0.99), 0.005);
    // 2.92 times the rounded 32 nm is the annex's 93 nm; unrounded it is 92.5 nm.
    assertEquals(93, GAUGE.expanded(0.99), 1);
  }

  /** H.1.7: the products of two uncertain inputs whose estimates are zero. */
  @Test
  void gauge_secondOrder_is34Nm() {
    double fromExpansion = STANDARD_NM * Propagation.rectangular(1e-6) * 0.41;
    double fromTemperature = STANDARD_NM * 1.2e-6 * Propagation.rectangular(0.05);
    assertEquals(11.7, fromExpansion, 0.2);
    assertEquals(1.7, fromTemperature, 0.05);
    double all = Propagation.independent(GAUGE.combined(), fromExpansion, fromTemperature);
    assertEquals(34, Math.rint(all));
  }

  /** Large numbers of degrees of freedom approach the normal distribution: k = 1.96 at 95 %. */
  @Test
  void knownUncertainty_hasTheNormalCoverageFactor() {
    UncertaintyBudget known =
        new UncertaintyBudget(List.of(new Component("scale", 1, Double.POSITIVE_INFINITY)));
    assertEquals(1.95996, known.coverageFactor(0.95), 1e-4);
  }

  @Test
  void badComponents_areRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Component("x", -1, 5));
    assertThrows(IllegalArgumentException.class, () -> new Component("x", 1, 0));
    assertThrows(IllegalArgumentException.class, () -> new UncertaintyBudget(List.of()));
  }
}
