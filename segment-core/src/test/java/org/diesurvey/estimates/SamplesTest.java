package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.api.Test;

/** Against the statistics of Commons Math. */
class SamplesTest {
  /** More than the first room of 2^14, so that it grows. */
  private static final int DRAWS = 20_001;

  private final Samples samples = new Samples();
  private final double[] drawn = new Random(5).doubles(DRAWS, 10, 20).toArray();

  SamplesTest() {
    for (double v : drawn) {
      samples.add(v * v);
    }
  }

  @Test
  void summaryOfABlock_isThatOfItsDrawsAlone() {
    DescriptiveStatistics block = new DescriptiveStatistics();
    for (int i = 1000; i < 3001; i++) {
      block.addValue(drawn[i] * drawn[i]);
    }
    double[] s = samples.summary(1000, 3001);
    assertEquals(block.getMean(), s[0], 1e-9);
    assertEquals(block.getStandardDeviation(), s[1], 1e-9);
    assertEquals(quantile(block.getValues(), 0.025), s[2]);
    assertEquals(quantile(block.getValues(), 0.975), s[3]);
  }

  @Test
  void estimate_isMedianAndEqualTails() {
    double[] squares = new double[DRAWS];
    for (int i = 0; i < DRAWS; i++) {
      squares[i] = drawn[i] * drawn[i];
    }
    Estimate e = samples.estimate();
    assertEquals(DRAWS, samples.size());
    assertEquals(quantile(squares, 0.5), e.value());
    assertEquals(quantile(squares, 0.025), e.low());
    assertEquals(quantile(squares, 0.975), e.high());
  }

  /** The order statistic at p (n - 1), type 7 of Hyndman and Fan, here a whole number. */
  private static double quantile(double[] values, double p) {
    return new Percentile().withEstimationType(EstimationType.R_7).evaluate(values, 100 * p);
  }
}
