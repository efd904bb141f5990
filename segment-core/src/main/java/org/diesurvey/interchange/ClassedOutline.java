package org.diesurvey.interchange;

import java.time.Instant;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Outline;

/**
 * An outline that somebody, or a survey, has given a class.
 *
 * @param id short name, unique in its set
 * @param dieClass the class, never off-die; a memory array for the bit-cell arrays inside one
 * @param reason why an area is unclear, for example "empty"; empty for other classes
 * @param shape corners in the frame of the set
 * @param partOf id of the memory that a bit-cell array lies in; empty for regions
 * @param note free text of a person
 * @param author who drew or changed the outline
 * @param time when it was drawn or changed
 * @param measures what a survey says of it; never filled by readers
 * @param memory what a person knows of a memory array
 */
@Supported
public record ClassedOutline(
    String id,
    DieClass dieClass,
    Optional<String> reason,
    Outline shape,
    Optional<String> partOf,
    Optional<String> note,
    Optional<String> author,
    Optional<Instant> time,
    Optional<StatedMeasures> measures,
    Optional<MemoryFacts> memory) {

  /** Without facts about a memory. */
  public ClassedOutline(
      String id,
      DieClass dieClass,
      Optional<String> reason,
      Outline shape,
      Optional<String> partOf,
      Optional<String> note,
      Optional<String> author,
      Optional<Instant> time,
      Optional<StatedMeasures> measures) {
    this(id, dieClass, reason, shape, partOf, note, author, time, measures, Optional.empty());
  }

  /** The same with facts about the memory. */
  public ClassedOutline withMemory(Optional<MemoryFacts> facts) {
    return new ClassedOutline(
        id, dieClass, reason, shape, partOf, note, author, time, measures, facts);
  }

  /** A region with nothing but its class. */
  public static ClassedOutline region(String id, DieClass dieClass, Outline shape) {
    return new ClassedOutline(
        id,
        dieClass,
        Optional.empty(),
        shape,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** A bit-cell array inside a memory. */
  public static ClassedOutline bitCells(String id, String partOf, Outline shape) {
    return region(id, DieClass.MEMORY_ARRAY, shape).withPartOf(partOf);
  }

  /** The same as a bit-cell array of a memory. */
  ClassedOutline withPartOf(String parent) {
    return new ClassedOutline(
        id, dieClass, reason, shape, Optional.of(parent), note, author, time, measures, memory);
  }

  /** Whether this is a bit-cell array inside a memory, not a region of its own. */
  public boolean inner() {
    return partOf.isPresent();
  }

  /** The same with another shape; measures do not survive it. */
  public ClassedOutline withShape(Outline other) {
    return new ClassedOutline(
        id, dieClass, reason, other, partOf, note, author, time, Optional.empty(), memory);
  }
}
