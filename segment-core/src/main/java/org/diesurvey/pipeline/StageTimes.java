package org.diesurvey.pipeline;

import java.util.LinkedHashMap;
import java.util.Map;
import org.diesurvey.Supported;

/**
 * Wall time per stage; not part of any document, because documents are deterministic.
 *
 * @param seconds by stage name, in the order of the flow
 */
@Supported
public record StageTimes(Map<String, Double> seconds) {
  /** Keeps the order and copies. */
  public StageTimes {
    seconds = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(seconds));
  }
}
