package org.diesurvey.survey.json;

import java.util.List;
import org.diesurvey.classification.DieClass;

/** Names that the writer and the reader of documents share. */
final class SurveyMembers {
  /** The on-die classes with their member names, in the order of documents. */
  static final List<ClassMember> ON_DIE =
      List.of(
          new ClassMember(DieClass.MEMORY_ARRAY, "memory_array"),
          new ClassMember(DieClass.HARD_MACRO, "hard_macro"),
          new ClassMember(DieClass.LOGIC, "logic"),
          new ClassMember(DieClass.PAD_RING, "pad_ring"));

  private SurveyMembers() {}

  /**
   * A class and the member that holds its probability.
   *
   * @param dieClass an on-die class
   * @param name member name
   */
  record ClassMember(DieClass dieClass, String name) {}
}
