package org.diesurvey.regions.ring;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides how deep the pad ring is.
 *
 * @param forRing part of the evidence for macros and periphery that counts for the ring
 * @param bareCost what bare surface speaks against the ring, log odds, so that a ring ends at its
 *     last cell
 * @param channel least evidence for bare surface that makes a channel along a whole side
 * @param runUm bit cells or rows over less than this along a side may be part of I/O cells, um
 * @param snapUm how far from the change of evidence the channel is looked for, um
 */
public record RingTuning(
    double forRing, double bareCost, double channel, double runUm, double snapUm) {
  /** The values of ordinary surveys. */
  public static final RingTuning DEFAULT = new RingTuning(0.44, 0.9, 0.45, 130, 56);

  private static final String WIDER_WORLD = "drawn dies, o1 to o3, o6 and o7 (2026-11-29)";

  /** Rejects what is no positive number. */
  public RingTuning {
    TunedValue.requirePositive(forRing, bareCost, channel, runUm, snapUm);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<RingTuning>> values() {
    return List.of(
        new TunedValue<>(
            "forRing",
            "share",
            forRing,
            "174 drawn dies (seeds 860000 on, 1000860000 on), o2 and o6",
            v -> new RingTuning(v, bareCost, channel, runUm, snapUm)),
        new TunedValue<>(
            "bareCost",
            "log odds",
            bareCost,
            WIDER_WORLD,
            v -> new RingTuning(forRing, v, channel, runUm, snapUm)),
        new TunedValue<>(
            "channel",
            "share",
            channel,
            WIDER_WORLD,
            v -> new RingTuning(forRing, bareCost, v, runUm, snapUm)),
        new TunedValue<>(
            "runUm",
            "um",
            runUm,
            TunedValue.NOT_RECORDED,
            v -> new RingTuning(forRing, bareCost, channel, v, snapUm)),
        new TunedValue<>(
            "snapUm",
            "um",
            snapUm,
            TunedValue.NOT_RECORDED,
            v -> new RingTuning(forRing, bareCost, channel, runUm, v)));
  }
}
