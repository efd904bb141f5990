package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class MemoryOddsTest {
  @Test
  void memoryInOnePictureOnly_isAnotherClass() {
    assertTrue(MemoryOdds.differ(2.5, -1));
    assertTrue(MemoryOdds.differ(-1, 2.5));
  }

  @Test
  void doubtfulMemory_countsOnlyAgainstASureMacro() {
    assertTrue(MemoryOdds.differ(0.5, -3));
    assertFalse(MemoryOdds.differ(0.5, -0.6));
    assertFalse(MemoryOdds.differ(0.3, -3.7));
  }

  @Test
  void twoMemoriesOrTwoMacros_areOneClass() {
    assertFalse(MemoryOdds.differ(2.5, 1.6));
    assertTrue(MemoryOdds.differ(2.5, 1.4));
    assertFalse(MemoryOdds.differ(-3.8, -0.9));
  }
}
