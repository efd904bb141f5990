package org.diesurvey.survey;

import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * Whether the finest pattern that a region repeats, the bit cells of a memory or the rows of logic,
 * can be read from the photograph.
 *
 * @param verdict what can be read
 * @param finestUm finest period that the photograph carries, um; empty without a scale
 * @param finestPx the same in px of the photograph, at least 2
 */
@Supported
public record FinePattern(Verdict verdict, OptionalDouble finestUm, double finestPx) {
  /** What can be read. */
  public enum Verdict {
    /** The period stands among the region's periods: of cells in both directions, or of rows. */
    RESOLVED("resolved"),
    /** Bit cells repeat readably in one direction only. */
    ONE_DIRECTION("resolved in one direction"),
    /**
     * No such period, and the photograph has detail down to two pixels: the camera samples more
     * coarsely than the optics resolve, so finer lattices are folded into beats (Shannon's sampling
     * theorem).
     */
    ALIASED("aliased"),
    /** No such period, and the optics blur what is finer than the finest period. */
    NOT_RESOLVABLE("not resolvable");

    private final String label;

    Verdict(String label) {
      this.label = label;
    }

    /** The verdict in words, as documents and pages have it. */
    public String label() {
      return label;
    }
  }
}
