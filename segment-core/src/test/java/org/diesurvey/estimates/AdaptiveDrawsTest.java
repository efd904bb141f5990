package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

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
