package org.diesurvey.comparison;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.Outline;

/**
 * One change between two revisions. Lengths and outlines are in the die frame of the first die, in
 * the comparison's unit.
 *
 * @param id unique in the comparison, "C1" upwards, most significant first
 * @param kind what happened
 * @param classA what the ground (of a moved block: the block) is in the first die; empty if unclear
 * @param classB the same in the second die
 * @param regionsA ids of the regions of the first survey that are concerned; may be empty
 * @param regionsB ids of the regions of the second survey
 * @param outlinesA where it is in the first die; empty for new blocks
 * @param outlinesB where it is in the second die, carried over by the registration; empty for
 *     blocks that are gone
 * @param size how large the change is, with standard uncertainty (k = 1) from scale, edges and
 *     registration
 * @param measure what {@code size} is
 * @param significance size over its standard uncertainty; above 1000 it is 1000
 * @param confidence probability that the place changed in this way, 0 to 1, learnt from drawn
 *     revisions
 * @param shift of a moved block, else empty
 * @param sides of a resized block those that moved, else empty
 * @param similarity structural correlation of the two pictures in the changed place, -1 to 1; empty
 *     where it cannot be judged
 * @param sentence what happened, for people, with unit and uncertainty
 */
@Supported
public record Change(
    String id,
    ChangeKind kind,
    Optional<DieClass> classA,
    Optional<DieClass> classB,
    List<String> regionsA,
    List<String> regionsB,
    List<Outline> outlinesA,
    List<Outline> outlinesB,
    Measured size,
    Measure measure,
    double significance,
    double confidence,
    Optional<Shift> shift,
    List<SideMove> sides,
    Optional<Double> similarity,
    String sentence) {
  /** Copies the lists. */
  public Change {
    regionsA = List.copyOf(regionsA);
    regionsB = List.copyOf(regionsB);
    outlinesA = List.copyOf(outlinesA);
    outlinesB = List.copyOf(outlinesB);
    sides = List.copyOf(sides);
  }

  /** What the size of a change measures. */
  public enum Measure {
    /** Distance a block moved; unit of length. */
    DISTANCE("distance"),
    /** Area after minus area before; square unit of length, may be negative. */
    AREA_CHANGE("area-change"),
    /** Area of the changed place; square unit of length. */
    AREA("area");

    private final String id;

    Measure(String id) {
      this.id = id;
    }

    /** As written in documents. */
    public String id() {
      return id;
    }
  }

  /**
   * Where a block went, in the axes of the first die.
   *
   * @param right to the right, negative to the left
   * @param up upwards, negative downwards
   */
  public record Shift(Measured right, Measured up) {}

  /**
   * A side of a block that moved.
   *
   * @param side "left", "right", "lower" or "upper", in the axes of the first die
   * @param outward how far, positive where the block grew
   */
  public record SideMove(String side, Measured outward) {}
}
