package org.diesurvey.preparation.edges;

import org.diesurvey.Supported;

/** A side of the upright die, in the order clockwise from the upper one. */
@Supported
public enum DieSide {
  /** Towards the top of the upright die. */
  UPPER,
  /** Right of the upright die. */
  RIGHT,
  /** Towards the bottom of the upright die. */
  LOWER,
  /** Left of the upright die. */
  LEFT
}
