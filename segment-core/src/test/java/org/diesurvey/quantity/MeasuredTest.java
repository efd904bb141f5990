package org.diesurvey.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class MeasuredTest {
  /** Example in the description of the open-source package GTC: prints 6.67(23) ohm. */
  @Test
  void quotient_agreesWithPublishedExample() {
    Measured volt = new Measured(0.1, 0.001);
    Measured ampere = new Measured(0.015, 0.0005);
    Measured ohm = volt.dividedBy(ampere);
    assertEquals(6.67, ohm.value(), 0.005);
    assertEquals(0.23, ohm.standardUncertainty(), 0.005);
  }

  /** Product and quotient have the same relative uncertainty: root of the sum of squares. */
  @Test
  void product_hasTheRelativeUncertaintyOfTheQuotient() {
    Measured a = new Measured(3, 0.03);
    Measured b = new Measured(-4, 0.08);
    assertEquals(Math.hypot(0.01, 0.02), a.times(b).relativeUncertainty(), 1e-12);
    assertEquals(Math.hypot(0.01, 0.02), a.dividedBy(b).relativeUncertainty(), 1e-12);
    assertEquals(-12, a.times(b).value());
  }

  @Test
  void sumAndDifference_addInSquares() {
    Measured a = new Measured(10, 3);
    Measured b = new Measured(4, 4);
    assertEquals(new Measured(14, 5), a.plus(b));
    assertEquals(new Measured(6, 5), a.minus(b));
  }

  @Test
  void divisionByZero_isRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> Measured.exact(1).dividedBy(Measured.exact(0)));
  }

  /**
   * The three cases of GUM 5.2: the area of a rectangle with both sides 2 % uncertain is 4 %
   * uncertain when one ruler measured both, 2.83 % when two did (own arithmetic).
   */
  @Test
  void correlation_decidesBetweenPlainSumAndSumOfSquares() {
    assertEquals(4, Propagation.correlated(2, 2, 1), 1e-12);
    assertEquals(Math.sqrt(8), Propagation.correlated(2, 2, 0), 1e-12);
    assertEquals(0, Propagation.correlated(2, 2, -1), 1e-12);
    assertEquals(4, Propagation.fullyCorrelated(2, 2), 1e-12);
    assertEquals(Math.sqrt(8), Propagation.independent(2, 2), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> Propagation.correlated(1, 1, 1.1));
  }
}
