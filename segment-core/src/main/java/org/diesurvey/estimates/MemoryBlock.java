package org.diesurvey.estimates;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A memory region as measured.
 *
 * @param id its name in the survey
 * @param macro the whole outline, array and periphery
 * @param arrays the bit-cell arrays inside it together; empty if they are not known
 * @param periods periods of the texture of the arrays
 * @param kind static unless stated
 * @param ports 1 or 2 if stated by someone who knows
 */
public record MemoryBlock(
    String id,
    BlockArea macro,
    Optional<BlockArea> arrays,
    List<TexturePeriod> periods,
    MemoryKind kind,
    OptionalInt ports) {
  /** Copies the list and rejects other numbers of ports. */
  public MemoryBlock {
    periods = List.copyOf(periods);
    if (ports.isPresent() && ports.getAsInt() != 1 && ports.getAsInt() != 2) {
      throw new IllegalArgumentException("ports must be 1 or 2, were " + ports.getAsInt());
    }
  }
}
