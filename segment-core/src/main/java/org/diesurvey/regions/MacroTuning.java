package org.diesurvey.regions;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides which blocks are macros, and which are one.
 *
 * @param leastUm2 least area of a hard macro, um2
 * @param channelUm channels between blocks are narrower than this, um
 * @param plateStep step of tone at a side of a flat plate over the median step between cells of
 *     bare ground
 */
public record MacroTuning(double leastUm2, double channelUm, double plateStep) {
  /** The values of ordinary surveys. */
  public static final MacroTuning DEFAULT = new MacroTuning(380, 36, 5);

  /** Rejects what is no positive number. */
  public MacroTuning {
    TunedValue.requirePositive(leastUm2, channelUm, plateStep);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<MacroTuning>> values() {
    return List.of(
        new TunedValue<>(
            "leastUm2",
            "um2",
            leastUm2,
            "not recorded; a device group of 20 um",
            v -> new MacroTuning(v, channelUm, plateStep)),
        new TunedValue<>(
            "channelUm",
            "um",
            channelUm,
            "common practice, no source",
            v -> new MacroTuning(leastUm2, v, plateStep)),
        new TunedValue<>(
            "plateStep",
            "1",
            plateStep,
            "own choice",
            v -> new MacroTuning(leastUm2, channelUm, v)));
  }
}
