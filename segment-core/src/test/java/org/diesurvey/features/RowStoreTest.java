package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.diesurvey.DieInputException;
import org.junit.jupiter.api.Test;

class RowStoreTest {
  private static float[] numbers(int row, int count) {
    SplittableRandom random = new SplittableRandom(row);
    float[] out = new float[count];
    for (int i = 0; i < count; i++) {
      out[i] = (float) random.nextDouble(-1e6, 1e6);
    }
    out[0] = Float.NaN;
    return out;
  }

  /** Bit for bit, whatever the order and number of the threads that write. */
  @Test
  void fileGivesWhatMemoryGives() {
    try (RowStore memory = RowStore.inMemory(300, 1000);
        RowStore file = RowStore.inFile(300, 1000)) {
      IntStream.range(0, 300)
          .parallel()
          .filter(r -> r % 7 != 0)
          .forEach(
              r -> {
                memory.put(r, 13, numbers(r, 900), 5, 700);
                file.put(r, 13, numbers(r, 900), 5, 700);
              });
      for (int r = 0; r < 300; r++) {
        float[] held = new float[1002];
        float[] read = new float[1002];
        memory.get(r, 0, held, 2, 1000);
        file.get(r, 0, read, 2, 1000);
        assertArrayEquals(held, read, "row " + r);
        assertEquals(r % 7 == 0 ? 0 : numbers(r, 900)[5 + 699], read[2 + 13 + 699]);
      }
    }
  }

  @Test
  void smallStoresStayInMemory() {
    assertTrue(RowStore.of(100, 100).inMemory());
  }

  @Test
  void moreThanAPartOfTheHeap_isAFile() {
    int rows = (int) (Runtime.getRuntime().maxMemory() / 6 / 4000) + 10;
    try (RowStore large = RowStore.of(Math.max(rows, 9000), 1000)) {
      assertFalse(large.inMemory());
      float[] last = {1};
      large.get(large.rows() - 1, 999, last, 0, 1);
      assertEquals(0, last[0]);
    }
  }

  @Test
  void moreThanTheDiskHolds_isOneSentence() {
    DieInputException e =
        assertThrows(DieInputException.class, () -> RowStore.inFile(Integer.MAX_VALUE, 100_000));
    assertTrue(e.getMessage().contains("has no room for a scratch file of"), e.getMessage());
  }
}
