package org.diesurvey.quantity;

/** The law of propagation of uncertainty for inputs that may be correlated. */
public final class Propagation {
  private Propagation() {}

  /**
   * Standard uncertainty of a sum of independent contributions: the root of the sum of squares.
   * JCGM 100:2008 (GUM) 5.1.2, equation 10 (numbering from memory).
   *
   * @param contributions sensitivity times standard uncertainty of each input, signs do not matter
   */
  public static double independent(double... contributions) {
    double sum = 0;
    for (double c : contributions) {
      sum += c * c;
    }
    return Math.sqrt(sum);
  }

  /**
   * Standard uncertainty of a sum of contributions that share one cause (correlation 1): the
   * absolute value of the plain sum. JCGM 100:2008 (GUM) 5.2.2, note 1 (numbering from memory).
   *
   * @param contributions sensitivity times standard uncertainty of each input, with its sign
   */
  public static double fullyCorrelated(double... contributions) {
    double sum = 0;
    for (double c : contributions) {
      sum += c;
    }
    return Math.abs(sum);
  }

  /**
   * Standard uncertainty of a sum of two contributions with a known correlation. JCGM 100:2008
   * (GUM) 5.2.2, equation 16 (numbering from memory).
   *
   * @param first sensitivity times standard uncertainty, with its sign
   * @param second sensitivity times standard uncertainty, with its sign
   * @param correlation coefficient, -1 to 1
   */
  public static double correlated(double first, double second, double correlation) {
    if (!(correlation >= -1 && correlation <= 1)) {
      throw new IllegalArgumentException("correlation must be in -1..1, was " + correlation);
    }
    double square = first * first + second * second + 2 * correlation * first * second;
    return Math.sqrt(Math.max(0, square));
  }

  /**
   * Standard uncertainty of a value known only to lie within +-a of its estimate, every value as
   * likely: a / sqrt(3). JCGM 100:2008 (GUM) 4.3.7 (numbering from memory).
   *
   * @param halfWidth a, not negative
   */
  public static double rectangular(double halfWidth) {
    return halfWidth / Math.sqrt(3);
  }
}
