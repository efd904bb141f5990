package org.diesurvey.regions;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides where the outlines of blocks run.
 *
 * @param rectangleFill share of its bounding rectangle that a block must fill to be drawn as one
 * @param reachUm how far an edge may be moved, um: a tile and a half
 * @param quiet activity of a channel as a share of the block's
 */
public record OutlineTuning(double rectangleFill, double reachUm, double quiet) {
  /** The values of ordinary surveys. */
  public static final OutlineTuning DEFAULT = new OutlineTuning(0.86, 13, 0.6);

  /** Rejects what is no positive number, and edges moved farther than blocks are sampled. */
  public OutlineTuning {
    TunedValue.requirePositive(rectangleFill, reachUm, quiet);
    if (reachUm > EdgeSnapper.INNER_UM) {
      throw new IllegalArgumentException(
          "an edge may be moved by at most " + EdgeSnapper.INNER_UM + " um, was " + reachUm);
    }
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<OutlineTuning>> values() {
    return List.of(
        new TunedValue<>(
            "rectangleFill",
            "share",
            rectangleFill,
            TunedValue.NOT_RECORDED,
            v -> new OutlineTuning(v, reachUm, quiet)),
        new TunedValue<>(
            "reachUm",
            "um",
            reachUm,
            "not recorded; a tile and a half",
            v -> new OutlineTuning(rectangleFill, v, quiet)),
        new TunedValue<>(
            "quiet",
            "share",
            quiet,
            TunedValue.NOT_RECORDED,
            v -> new OutlineTuning(rectangleFill, reachUm, v)));
  }
}
