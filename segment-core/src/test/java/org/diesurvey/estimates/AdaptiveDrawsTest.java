package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AdaptiveDrawsTest {

  /** MC-1: JCGM 101:2008, 9.2.2 (from memory): four normals, u = 2.0, interval -3.92 to 3.92. */
  @Test
  void sumOfFourNormals_asInTheSupplement() {
    Deviates d = new Deviates(4);
    Samples y =
        fixed(
            r -> {
              d.draw(r);
              return d.edge(0) + d.edge(1) + d.edge(2) + d.edge(3);
            });
    double[] s = y.summary(0, y.size());
    assertEquals(0, s[0], 0.01);
    assertEquals(2.0, s[1], 0.01);
    assertEquals(-3.92, s[2], 0.02);
    assertEquals(3.92, s[3], 0.02);
  }

  /** MC-2: JCGM 101:2008, 9.2.3 (from memory): four rectangular, sd 1: -3.88 to 3.88. */
  @Test
  void sumOfFourRectangular_asInTheSupplement() {
    double a = Math.sqrt(3);
    Samples y =
        fixed(
            r -> {
              double sum = 0;
              for (int i = 0; i < 4; i++) {
                sum += a * (2 * r.nextDouble() - 1);
              }
              return sum;
            });
    double[] s = y.summary(0, y.size());
    assertEquals(2.0, s[1], 0.01);
    assertEquals(-3.88, s[2], 0.02);
    assertEquals(3.88, s[3], 0.02);
  }

  /** A product of log-normals is log-normal: the ends of the interval are known exactly. */
  @Test
  void productOfLogNormals_hasItsExactInterval() {
    LogRange a = LogRange.aroundOne(0.3);
    LogRange b = LogRange.aroundOne(0.4);
    Deviates d = new Deviates(2);
    Samples y =
        fixed(
            r -> {
              d.draw(r);
              return a.at(d.edge(0)) * b.at(d.edge(1));
            });
    Estimate e = y.estimate();
    assertEquals(1, e.value(), 0.005);
    assertEquals(Math.exp(-0.5 * LogRange.Z95), e.low(), 0.005);
    assertEquals(Math.exp(0.5 * LogRange.Z95), e.high(), 0.02);
  }

  @Test
  void adaptiveRun_stopsWhenStable_andRepeats() {
    Deviates d = new Deviates(1);
    List<Samples> first = AdaptiveDraws.run(1, r -> one(d, r));
    List<Samples> second = AdaptiveDraws.run(1, r -> one(d, r));
    assertEquals(first.get(0).estimate(), second.get(0).estimate());
    assertTrue(first.get(0).size() >= 40_000 && first.get(0).size() <= 1_000_000);
    Estimate e = first.get(0).estimate();
    // u is 10, so one digit of it leaves a tolerance of 5.
    assertEquals(1000 - 19.6, e.low(), 5);
    assertEquals(1000 + 19.6, e.high(), 5);
  }

  @Test
  void quantityThatDoesNotVary_needsTheLeastDraws() {
    assertEquals(40_000, AdaptiveDraws.run(1, r -> new double[] {7}).get(0).size());
  }

  /** So wide that no million draws settle its ends: the run stops there all the same. */
  @Test
  void wildQuantity_endsAtAMillion() {
    List<Samples> s =
        AdaptiveDraws.run(2, r -> new double[] {1, Math.pow(r.nextDouble() + 1e-12, -2)});
    assertEquals(1_000_000, s.get(0).size());
    assertEquals(1_000_000, s.get(1).size());
  }

  /**
   * The rule of JCGM 101:2008, 7.9.4 (from memory), by the statistics of Commons Math: the run ends
   * at the first block at which four figures of every output are known to within half a unit of the
   * first digit of the standard uncertainty.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.5, 1.0, 1.2})
  void run_endsWithTheBlockThatMakesItStable(double logSd) {
    Deviates d = new Deviates(1);
    Samples s =
        AdaptiveDraws.run(
                1,
                r -> {
                  d.draw(r);
                  return new double[] {Math.exp(logSd * d.edge(0))};
                })
            .get(0);
    int blocks = s.size() / AdaptiveDraws.BLOCK;
    assertTrue(stableAfter(s, blocks), blocks + " blocks");
    for (int h = 4; h < blocks; h++) {
      assertFalse(stableAfter(s, h), h + " of " + blocks + " blocks");
    }
  }

  private static boolean stableAfter(Samples s, int blocks) {
    SummaryStatistics[] figures = new SummaryStatistics[4];
    for (int k = 0; k < 4; k++) {
      figures[k] = new SummaryStatistics();
      for (int b = 0; b < blocks; b++) {
        figures[k].addValue(s.summary(b * 10_000, (b + 1) * 10_000)[k]);
      }
    }
    double tolerance = Math.pow(10, Math.floor(Math.log10(figures[1].getMean()))) / 2;
    return Stream.of(figures)
        .allMatch(f -> 2 * f.getStandardDeviation() / Math.sqrt(blocks) < tolerance);
  }

  private static double[] one(Deviates d, SplittableRandom r) {
    d.draw(r);
    return new double[] {1000 + 10 * d.edge(0)};
  }

  private interface Draw {
    double of(SplittableRandom random);
  }

  private static Samples fixed(Draw draw) {
    SplittableRandom random = new SplittableRandom(7);
    Samples s = new Samples();
    for (int i = 0; i < 300_000; i++) {
      s.add(draw.of(random));
    }
    return s;
  }
}
