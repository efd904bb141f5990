package org.diesurvey.interchange.gds;

/**
 * The eight-byte real of the GDSII stream format: a sign bit, seven bits of exponent to base 16
 * with an excess of 64, and a mantissa of 56 bits with the point in front of it.
 */
final class GdsReal {
  private static final double MANTISSA = 0x1p56;

  private GdsReal() {}

  static double value(long bits) {
    int exponent = (int) (bits >>> 56 & 0x7f) - 64;
    double v = (bits & 0x00ff_ffff_ffff_ffffL) / MANTISSA * Math.pow(16, exponent);
    return bits < 0 ? -v : v;
  }

  /** The nearest real; the mantissa is normalised, its first hexadecimal digit not 0. */
  static long bits(double value) {
    if (value == 0) {
      return 0;
    }
    double v = Math.abs(value);
    int exponent = 64;
    while (v >= 1) {
      v /= 16;
      exponent++;
    }
    while (v < 1.0 / 16) {
      v *= 16;
      exponent--;
    }
    if (exponent < 0 || exponent > 127) {
      throw new IllegalArgumentException("out of the range of the format: " + value);
    }
    long mantissa = Math.min(Math.round(v * MANTISSA), 0x00ff_ffff_ffff_ffffL);
    return (value < 0 ? Long.MIN_VALUE : 0) | (long) exponent << 56 | mantissa;
  }
}
