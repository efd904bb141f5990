package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

class LagCurveValleyTest {
  /** The rise of a peak, against a plain search for the deepest valley from 0.35 of its lag on. */
  @Test
  void rise_isThatOfAPlainSearch() {
    Random random = new Random(4);
    LagCurve curve = new LagCurve();
    for (int round = 0; round < 50; round++) {
      float[] products = new float[LagCurve.size()];
      for (int i = 0; i < products.length; i++) {
        products[i] = random.nextInt(9) - 4 + (round % 2 == 0 ? 0 : random.nextFloat());
      }
      curve.fill(new double[] {20, 20, 20, 20}, products, 1000);
      for (int i = 0; i < LagCurve.size(); i++) {
        float low = curve.at(i);
        for (int j = i - 1; j >= 0 && LagCurve.lagPx(j) >= 0.35f * LagCurve.lagPx(i); j--) {
          low = Math.min(low, curve.at(j));
        }
        assertEquals(curve.at(i) - low, curve.rise(i), "lag " + i + " in round " + round);
      }
    }
  }
}
