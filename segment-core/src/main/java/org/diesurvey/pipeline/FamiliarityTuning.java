package org.diesurvey.pipeline;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * From which distance a picture is unlike the training dies, 1 for the farthest hundredth of them.
 * It is told in a notice and holds confidences down; no outline hangs on it.
 *
 * @param withoutEdge where no die edge was found
 * @param withEdge where one was found, which itself speaks for a die
 */
public record FamiliarityTuning(double withoutEdge, double withEdge) {
  /** The values of ordinary surveys. */
  public static final FamiliarityTuning DEFAULT = new FamiliarityTuning(0.53, 1);

  /** Rejects what is no positive number. */
  public FamiliarityTuning {
    TunedValue.requirePositive(withoutEdge, withEdge);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<FamiliarityTuning>> values() {
    return List.of(
        new TunedValue<>(
            "withoutEdge",
            "1",
            withoutEdge,
            "80 drawn dies (5 lie beyond) and 17 photographs of other things (14 do)",
            v -> new FamiliarityTuning(v, withEdge)),
        new TunedValue<>(
            "withEdge",
            "1",
            withEdge,
            "the farthest hundredth of the training dies",
            v -> new FamiliarityTuning(withoutEdge, v)));
  }
}
