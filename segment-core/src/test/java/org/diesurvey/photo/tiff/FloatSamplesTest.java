package org.diesurvey.photo.tiff;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Floating-point samples: the smallest of their forms, and their range. */
class FloatSamplesTest {
  /** IEEE 754-2008, 3.3 and 3.4, binary16: the ends of its kinds of numbers. */
  @Test
  void halves() {
    assertEquals(1, FloatSamples.half((short) 0x3c00));
    assertEquals(-2, FloatSamples.half((short) 0xc000));
    assertEquals(65504, FloatSamples.half((short) 0x7bff));
    assertEquals(0x1p-14, FloatSamples.half((short) 0x0400));
    assertEquals(0x1p-24, FloatSamples.half((short) 0x0001));
    assertEquals(1023 * 0x1p-24, FloatSamples.half((short) 0x03ff));
    assertEquals(0x1.554p-2, FloatSamples.half((short) 0x3555));
    assertEquals(Double.NEGATIVE_INFINITY, FloatSamples.half((short) 0xfc00));
    assertTrue(Double.isNaN(FloatSamples.half((short) 0x7c01)));
  }

  @Test
  void theWholeRangeOfDoubles_hasAMiddle() {
    FloatRange range = new FloatRange(-Double.MAX_VALUE, Double.MAX_VALUE, 0);
    assertEquals(32768, range.level(0) & 0xffff);
    assertEquals(0.5, range.zero());
    assertEquals(0, new FloatRange(-1e30, 1, 0).zero());
    assertEquals(0, new FloatRange(-2, -1, 0).zero());
    assertEquals(0, new FloatRange(3, 3, 0).zero());
    assertEquals(-1, new FloatRange(1, 2, 0).zero());
  }
}
