package org.diesurvey.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Right-angled triangles: JCGM 100:2008, 5.1.2 (numbering from memory), adds squares. */
class MeasuredAreaTest {
  @Test
  void parts_addUpInSquares() {
    MeasuredArea a = MeasuredArea.of(100, 3, 4);
    assertEquals(new Measured(100, 5), a.joined());
    assertEquals(16.0 / 25, a.scaleShare(), 1e-12);
  }

  /** A pitch known to 6 % makes an area of 100 uncertain by 12. */
  @Test
  void whole_isSplitByTheScale() {
    Measured whole = new Measured(100, 13);
    MeasuredArea a = MeasuredArea.split(whole, 0.06);
    assertEquals(whole, a.joined());
    assertEquals(12, a.scale(), 1e-12);
    assertEquals(5, a.outline(), 1e-12);
  }

  /** A document's figures are rounded: the whole may be less than the scale alone makes. */
  @Test
  void scaleLargerThanTheWhole_leavesTheOutlineNothing() {
    MeasuredArea a = MeasuredArea.split(new Measured(100, 11.9), 0.06);
    assertEquals(0, a.outline());
    assertEquals(11.9, a.scale());
    assertEquals(1, a.scaleShare());
  }

  /** Outlines 3 and 4 make 5, scales 4 and 8 make 12: together 13. */
  @Test
  void areasOfOneDie_shareTheirScale() {
    MeasuredArea sum = MeasuredArea.of(40, 3, 4).plus(MeasuredArea.of(80, 4, 8));
    assertEquals(new Measured(120, 13), sum.joined());
    assertEquals(5, sum.outline(), 1e-12);
    assertEquals(12, sum.scale(), 1e-12);
  }

  @Test
  void exactArea_hasNoParts() {
    MeasuredArea a = MeasuredArea.split(Measured.exact(100), 0.06);
    assertEquals(MeasuredArea.of(100, 0, 0), a);
    assertEquals(0, a.scaleShare());
  }

  @Test
  void partsThatDoNotMakeTheWhole_areRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> new MeasuredArea(new Measured(100, 5), 3, 3.9));
    assertThrows(IllegalArgumentException.class, () -> MeasuredArea.of(100, -3, 4));
    assertThrows(IllegalArgumentException.class, () -> MeasuredArea.of(100, 3, -4));
  }
}
