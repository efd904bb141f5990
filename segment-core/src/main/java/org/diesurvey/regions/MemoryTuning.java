package org.diesurvey.regions;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides which blocks are memories.
 *
 * @param leastArrayUm2 least area of a memory's bit cells, um2; patches of rows below three times
 *     this are no logic of their own
 * @param surelyMemory mean probability of bit cells and periphery that makes a block a memory
 *     without wide arrays
 * @param holes holes of a memory up to this share of it belong to it
 */
public record MemoryTuning(double leastArrayUm2, double surelyMemory, double holes) {
  /** The values of ordinary surveys. */
  public static final MemoryTuning DEFAULT = new MemoryTuning(900, 0.6, 0.15);

  /** The dies on which the last round of rules for regions was chosen: docs/results/classes.md. */
  static final String LAST_CHOICE = "174 drawn dies (seeds 860000 on, 1000860000 on)";

  /** Rejects what is no positive number. */
  public MemoryTuning {
    TunedValue.requirePositive(leastArrayUm2, surelyMemory, holes);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<MemoryTuning>> values() {
    return List.of(
        new TunedValue<>(
            "leastArrayUm2",
            "um2",
            leastArrayUm2,
            TunedValue.NOT_RECORDED,
            v -> new MemoryTuning(v, surelyMemory, holes)),
        new TunedValue<>(
            "surelyMemory",
            "share",
            surelyMemory,
            LAST_CHOICE,
            v -> new MemoryTuning(leastArrayUm2, v, holes)),
        new TunedValue<>(
            "holes",
            "share",
            holes,
            LAST_CHOICE,
            v -> new MemoryTuning(leastArrayUm2, surelyMemory, v)));
  }
}
