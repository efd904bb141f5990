package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class OrganisationsTest {
  private static List<String> exactly(double bits) {
    return Organisations.near(new Estimate(bits, bits, bits));
  }

  @Test
  void units_changeAt1024() {
    assertEquals(List.of("256 bit (power of two)"), exactly(256));
    assertEquals(List.of("1 Kibit (power of two)"), exactly(1024));
    assertEquals(List.of("512 Kibit (power of two)"), exactly(512 << 10));
    assertEquals(List.of("1 Mibit (power of two)"), exactly(1 << 20));
  }

  /** 32 words of 8 bits are the fewest, 2^32 words of 8 bits the most. */
  @Test
  void words_goFrom32To2ToThe32() {
    assertEquals(List.of(), exactly(128));
    assertEquals(1, exactly(8 * Math.pow(2, 32)).size());
    assertEquals(List.of(), exactly(16 * Math.pow(2, 32)));
  }

  @Test
  void nearestInRatio_comesFirst() {
    // 1248, 1152 and 1024 of 1200 bits: ratios 1.04, 1.04 less and 1.17.
    assertEquals(
        List.of(
            "1.219 Kibit (32 bits and 7 check bits)",
            "1.125 Kibit (8 bits and parity)",
            "1 Kibit (power of two)"),
        Organisations.near(new Estimate(1200, 1000, 1300)));
  }
}
