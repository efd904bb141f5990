package org.diesurvey.features.damage;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides how much of a die counts as hidden.
 *
 * @param beyond how far beyond its own end the layer's range of greys may go, as a share of the
 *     range from the median to that end
 * @param leastGrey least departure, share of full scale: a low-contrast die must not be damaged by
 *     its own noise
 * @param offAxis least share of the outline of a fainter spot that runs more than 15 degrees off
 *     the axes; a circle has 0.67
 * @param hiddenShare share of a tile from which it is hidden
 */
public record DamageTuning(double beyond, double leastGrey, double offAxis, double hiddenShare) {
  /** The values that the shipped model was trained with. */
  public static final DamageTuning DEFAULT = new DamageTuning(0.7, 0.06, 0.6, 0.2);

  /** Rejects what is no positive number. */
  public DamageTuning {
    TunedValue.requirePositive(beyond, leastGrey, offAxis, hiddenShare);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<DamageTuning>> values() {
    return List.of(
        new TunedValue<>(
            "beyond",
            "share",
            beyond,
            "not recorded; lower thresholds were tried on drawn dies 700000 to 700044 and dropped",
            v -> new DamageTuning(v, leastGrey, offAxis, hiddenShare)),
        new TunedValue<>(
            "leastGrey",
            "share",
            leastGrey,
            TunedValue.NOT_RECORDED,
            v -> new DamageTuning(beyond, v, offAxis, hiddenShare)),
        new TunedValue<>(
            "offAxis",
            "share",
            offAxis,
            "not recorded; a circle has 0.67",
            v -> new DamageTuning(beyond, leastGrey, v, hiddenShare)),
        new TunedValue<>(
            "hiddenShare",
            "share",
            hiddenShare,
            TunedValue.NOT_RECORDED,
            v -> new DamageTuning(beyond, leastGrey, offAxis, v)));
  }
}
