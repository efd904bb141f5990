package org.diesurvey.comparison.document;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.Outline;

/**
 * One change between two revisions. Lengths and outlines are in the die frame of the first die, in
 * the comparison's unit.
 *
 * @param id unique in the comparison, "C1" upwards, most significant first
 * @param kind what happened
 * @param a the place in the first die
 * @param b the place in the second die; its outlines are carried over by the registration
 * @param size how large the change is
 * @param moved where the block or its sides went; {@link Displacement#NONE} for other kinds
 * @param similarity structural correlation of the two pictures in the changed place, -1 to 1; empty
 *     where it cannot be judged
 * @param confidence probability that the place changed in this way, 0 to 1, learnt from drawn
 *     revisions
 * @param sentence what happened, for people, with unit and uncertainty
 */
@Supported
public record Change(
    String id,
    ChangeKind kind,
    Side a,
    Side b,
    Size size,
    Displacement moved,
    Optional<Double> similarity,
    double confidence,
    String sentence) {

  /** The same change with another id. */
  public Change withId(String other) {
    return new Change(other, kind, a, b, size, moved, similarity, confidence, sentence);
  }

  /**
   * The changed place in one of the dies.
   *
   * @param dieClass what the ground (of a moved block: the block) is; empty if unclear
   * @param regions ids of the regions of the survey that are concerned; may be empty
   * @param outlines where it is; empty in the first die for new blocks, in the second for blocks
   *     that are gone
   */
  public record Side(Optional<DieClass> dieClass, List<String> regions, List<Outline> outlines) {
    /** Copies the lists. */
    public Side {
      regions = List.copyOf(regions);
      outlines = List.copyOf(outlines);
    }
  }

  /**
   * How large a change is.
   *
   * @param amount with standard uncertainty (k = 1) from scale, edges and registration
   * @param measure what the amount is
   * @param significance amount over its standard uncertainty; above 1000 it is 1000
   */
  public record Size(Measured amount, Measure measure, double significance) {}

  /**
   * What of a block moved.
   *
   * @param shift of a moved block, else empty
   * @param sides of a resized block those that moved, else empty
   */
  public record Displacement(Optional<Shift> shift, List<SideMove> sides) {
    /** Nothing moved. */
    public static final Displacement NONE = new Displacement(Optional.empty(), List.of());

    /** Copies the list. */
    public Displacement {
      sides = List.copyOf(sides);
    }
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
   * @param side of the block, in the axes of the first die
   * @param outward how far, positive where the block grew
   */
  public record SideMove(DieSide side, Measured outward) {}
}
