package org.diesurvey.pipeline;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.survey.Outline;

/**
 * A region that a person outlined.
 *
 * @param id unique in its file
 * @param dieClass never off-die
 * @param reason for unclear regions; else empty
 * @param outline in the frame of its file
 * @param arrays bit-cell arrays inside a memory region, in the same frame
 * @param memoryKind of a memory region, static unless stated
 * @param ports of a memory region, 1 or 2 if stated
 */
public record HandOutline(
    String id,
    DieClass dieClass,
    Optional<UnclearReason> reason,
    Outline outline,
    List<Outline> arrays,
    MemoryKind memoryKind,
    OptionalInt ports) {
  /** Copies the list. */
  public HandOutline {
    arrays = List.copyOf(arrays);
  }
}
