package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Test;

class StandardiserTest {
  private static final float NAN = Float.NaN;
  private static final float[][] ROWS = {
    {1, NAN, 5, NAN}, {2, 10, 5, NAN}, {4, 14, 5, NAN}, {7, NAN, 5, NAN}
  };

  /** Mean and population deviation from Apache Commons Math; absent values take no part. */
  @Test
  void learnedCentreAndScale_areMeanAndDeviationOfWhatIsPresent() {
    Standardiser s = Standardiser.learn(ROWS);
    DescriptiveStatistics first = new DescriptiveStatistics(new double[] {1, 2, 4, 7});
    assertEquals(first.getMean(), s.centre()[0], 1e-6);
    assertEquals(Math.sqrt(first.getPopulationVariance()), s.scale()[0], 1e-6);
    assertEquals(12, s.centre()[1], 1e-6);
    assertEquals(2, s.scale()[1], 1e-6);
  }

  @Test
  void featureThatNeverVariesOrIsNeverThere_hasScaleOne() {
    Standardiser s = Standardiser.learn(ROWS);
    assertEquals(1, s.scale()[2]);
    assertEquals(1, s.scale()[3]);
    assertEquals(0, s.centre()[3]);
  }

  @Test
  void absentFeature_isPutAtTheMean_andFarOnesAreClipped() {
    Standardiser s = new Standardiser(new float[] {3, 10, 0, 0}, new float[] {2, 1, 1, 1});
    float[] z = new float[4];
    s.apply(new float[] {5, NAN, 1000, -1000}, z);
    assertArrayEquals(new float[] {1, 0, 4, -4}, z);
  }
}
