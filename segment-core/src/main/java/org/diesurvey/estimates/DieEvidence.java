package org.diesurvey.estimates;

import java.util.List;
import java.util.OptionalDouble;

/**
 * All that the estimates of one die rest on.
 *
 * @param memories memory regions
 * @param logic logic regions
 * @param umPerPx pitch of the samples that periods were taken from, um
 * @param scaleRelative relative standard uncertainty of the pixel pitch, common to the die
 * @param nodeNm process node stated by the user, nm
 * @param outlinesByHand whether a person drew the outlines; else a program found them and may be
 *     wrong about their extent
 */
public record DieEvidence(
    List<MemoryBlock> memories,
    List<LogicBlock> logic,
    double umPerPx,
    double scaleRelative,
    OptionalDouble nodeNm,
    boolean outlinesByHand) {
  /** Copies the lists and rejects bad numbers. */
  public DieEvidence {
    memories = List.copyOf(memories);
    logic = List.copyOf(logic);
    if (!(umPerPx > 0) || !(scaleRelative >= 0 && scaleRelative < 1)) {
      throw new IllegalArgumentException(
          "needs a pitch > 0 um and a relative uncertainty of 0 to 1, were "
              + umPerPx
              + ", "
              + scaleRelative);
    }
  }
}
