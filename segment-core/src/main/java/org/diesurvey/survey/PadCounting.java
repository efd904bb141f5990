package org.diesurvey.survey;

import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * How the bond pads of a ring were counted.
 *
 * @param seen whether the pads themselves were seen; if not, I/O cells were counted, and one pad to
 *     each is assumed
 * @param standardUncertainty of the number of bond pads
 * @param pitchUm usual distance of neighbours; empty without a scale or if no distance is usual
 */
@Supported
public record PadCounting(boolean seen, double standardUncertainty, OptionalDouble pitchUm) {
  /** What was counted. */
  public String countedAs() {
    return seen ? "pads" : "I/O cells";
  }
}
