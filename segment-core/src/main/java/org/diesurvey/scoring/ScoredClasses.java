package org.diesurvey.scoring;

import java.util.List;
import org.diesurvey.classification.DieClass;

/** The classes that scores speak of, in their fixed order. */
final class ScoredClasses {
  /** Classes on the die. */
  static final List<DieClass> ON_DIE =
      List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING);

  /** Classes that a truth map can hold. */
  static final List<DieClass> TRUE =
      List.of(
          DieClass.OFF_DIE,
          DieClass.MEMORY_ARRAY,
          DieClass.HARD_MACRO,
          DieClass.LOGIC,
          DieClass.PAD_RING);

  /** Classes that a survey can give. */
  static final List<DieClass> PREDICTED =
      List.of(
          DieClass.OFF_DIE,
          DieClass.MEMORY_ARRAY,
          DieClass.HARD_MACRO,
          DieClass.LOGIC,
          DieClass.PAD_RING,
          DieClass.UNCLEAR);

  private ScoredClasses() {}
}
