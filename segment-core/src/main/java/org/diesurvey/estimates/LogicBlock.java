package org.diesurvey.estimates;

import java.util.List;

/**
 * A logic region as measured.
 *
 * @param id its name in the survey
 * @param area outline, holes left out
 * @param periods periods of its texture
 */
public record LogicBlock(String id, BlockArea area, List<TexturePeriod> periods) {
  /** Copies the list. */
  public LogicBlock {
    periods = List.copyOf(periods);
  }
}
