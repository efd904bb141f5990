package org.diesurvey.pipeline;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What a plain lattice counts where no scale is known, and in magnified pictures.
 *
 * @param plain strength from which a tile lies in a lattice, see {@link
 *     org.diesurvey.features.FeatureTable.Vectors#lattice}
 * @param pull how far a plain lattice moves the probabilities towards bit cells, 0 to 1
 */
public record LatticeTuning(double plain, double pull) {
  /** The values of ordinary surveys. */
  public static final LatticeTuning DEFAULT = new LatticeTuning(0.3, 0.8);

  /** Rejects what is no positive number, and a pull above 1. */
  public LatticeTuning {
    TunedValue.requirePositive(plain, pull);
    if (pull > 1) {
      throw new IllegalArgumentException("the pull of a lattice must be at most 1, was " + pull);
    }
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<LatticeTuning>> values() {
    return List.of(
        new TunedValue<>(
            "plain",
            "1",
            plain,
            "own choice, after a look at block-a of the real photographs",
            v -> new LatticeTuning(v, pull)),
        new TunedValue<>("pull", "share", pull, "own choice", v -> new LatticeTuning(plain, v)));
  }
}
