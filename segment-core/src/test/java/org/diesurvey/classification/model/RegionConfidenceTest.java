package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.model.RegionConfidence.Outcome;
import org.junit.jupiter.api.Test;

class RegionConfidenceTest {
  /** What is true of the simulated regions: tiles are far too sure, macros most of all. */
  private static final RegionConfidence TRUTH =
      new RegionConfidence(0.45, 0.3, -2.2, -3.2, -1.4, -0.7);

  private static final DieClass[] CLASSES = {
    DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING
  };

  private static List<Outcome> simulated(int count, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Outcome> out = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      DieClass c = CLASSES[random.nextInt(4)];
      double p = 0.3 + 0.69 * random.nextDouble();
      int tiles = (int) Math.exp(7 * random.nextDouble());
      out.add(new Outcome(c, p, tiles, random.nextDouble() < TRUTH.of(c, p, tiles)));
    }
    return out;
  }

  /** Expected calibration error in ten equal bins (Guo et al. 2017, from memory). */
  private static double calibrationError(RegionConfidence model, List<Outcome> outcomes) {
    double[] gap = new double[10];
    for (Outcome o : outcomes) {
      double c = model.of(o.dieClass(), o.meanProbability(), o.tiles());
      gap[Math.min(9, (int) (10 * c))] += c - (o.right() ? 1 : 0);
    }
    double sum = 0;
    for (double g : gap) {
      sum += Math.abs(g) / outcomes.size();
    }
    return sum;
  }

  @Test
  void fittedCurve_isCalibratedOnRegionsItHasNotSeen() {
    RegionConfidence fitted = RegionConfidence.fit(simulated(1500, 1));
    List<Outcome> fresh = simulated(4000, 2);
    double error = calibrationError(fitted, fresh);
    assertTrue(error < 0.05, "calibration error " + error);
    double plain = calibrationError(RegionConfidence.PLAIN, fresh);
    assertTrue(plain > 0.1, "the plain curve must be wrong here: " + plain);
  }

  @Test
  void moreTilesOrProbability_neverLowerAFittedConfidence() {
    RegionConfidence fitted = RegionConfidence.fit(simulated(1500, 1));
    for (DieClass c : CLASSES) {
      assertTrue(fitted.of(c, 0.9, 50) > fitted.of(c, 0.5, 50));
      assertTrue(fitted.of(c, 0.7, 500) > fitted.of(c, 0.7, 5));
    }
  }

  @Test
  void plainCurve_isTheProbabilityItself() {
    assertEquals(0.73, RegionConfidence.PLAIN.of(DieClass.LOGIC, 0.73, 12), 1e-12);
    assertEquals(0.73, TRUTH.of(DieClass.UNCLEAR, 0.73, 12));
  }

  @Test
  void tooFewOrOneSidedOutcomes_giveThePlainCurve() {
    assertEquals(RegionConfidence.PLAIN, RegionConfidence.fit(simulated(39, 1)));
    List<Outcome> right = simulated(100, 1).stream().filter(Outcome::right).limit(50).toList();
    assertEquals(RegionConfidence.PLAIN, RegionConfidence.fit(right));
  }
}
