package org.diesurvey.photo;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.IntFunction;
import org.diesurvey.photo.file.SampleBlock;

/**
 * Keeps the decoded blocks that were used last, up to a number of bytes. Safe for several threads;
 * a block is decoded once even if several ask for it together.
 */
final class BlockCache {
  private static final int LOCKS = 64;

  private final long budgetBytes;
  private final IntFunction<SampleBlock> decoder;
  private final Map<Integer, SampleBlock> blocks = new LinkedHashMap<>(64, 0.75f, true);
  private final Object[] locks = new Object[LOCKS];
  private long heldBytes;

  BlockCache(long budgetBytes, IntFunction<SampleBlock> decoder) {
    this.budgetBytes = budgetBytes;
    this.decoder = decoder;
    for (int i = 0; i < LOCKS; i++) {
      locks[i] = new Object();
    }
  }

  SampleBlock block(int index) {
    synchronized (locks[index % LOCKS]) {
      synchronized (blocks) {
        SampleBlock held = blocks.get(index);
        if (held != null) {
          return held;
        }
      }
      SampleBlock block = decoder.apply(index);
      keep(index, block);
      return block;
    }
  }

  /** Bytes held now. */
  long heldBytes() {
    synchronized (blocks) {
      return heldBytes;
    }
  }

  private void keep(int index, SampleBlock block) {
    synchronized (blocks) {
      blocks.put(index, block);
      heldBytes += block.sizeBytes();
      // The newest stays even if it alone is over the budget, or every row would decode it again.
      Iterator<SampleBlock> oldest = blocks.values().iterator();
      while (heldBytes > budgetBytes && blocks.size() > 1) {
        heldBytes -= oldest.next().sizeBytes();
        oldest.remove();
      }
    }
  }
}
