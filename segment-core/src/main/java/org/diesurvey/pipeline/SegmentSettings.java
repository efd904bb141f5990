package org.diesurvey.pipeline;

import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * Settings of a survey.
 *
 * @param tileUm side of a tile, um, 4 to 64
 * @param nodeNm process node stated by the user, nm, 3 to 10000; recorded only
 * @param threads worker threads, 1 to 256; changes the speed, never the result
 */
@Supported
public record SegmentSettings(double tileUm, OptionalDouble nodeNm, int threads) {
  /** Side of a tile that the shipped model was trained for, um. */
  public static final double DEFAULT_TILE_UM = 8;

  /** Rejects values out of range. */
  public SegmentSettings {
    if (!(tileUm >= 4 && tileUm <= 64)) {
      throw new IllegalArgumentException("tile side must be in 4..64 um, was " + tileUm);
    }
    if (nodeNm.isPresent() && !(nodeNm.getAsDouble() >= 3 && nodeNm.getAsDouble() <= 10000)) {
      throw new IllegalArgumentException(
          "process node must be in 3..10000 nm, was " + nodeNm.getAsDouble());
    }
    if (threads < 1 || threads > 256) {
      throw new IllegalArgumentException("threads must be in 1..256, was " + threads);
    }
  }

  /** 8 um tiles, no node, one thread per processor. */
  public static SegmentSettings defaults() {
    return new SegmentSettings(
        DEFAULT_TILE_UM,
        OptionalDouble.empty(),
        Math.min(64, Runtime.getRuntime().availableProcessors()));
  }

  /** The same with a process node, nm. */
  public SegmentSettings withNodeNm(double nm) {
    return new SegmentSettings(tileUm, OptionalDouble.of(nm), threads);
  }

  /** The same with another number of threads. */
  public SegmentSettings withThreads(int count) {
    return new SegmentSettings(tileUm, nodeNm, count);
  }
}
