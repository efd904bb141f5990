package org.diesurvey.synthetic;

import java.util.List;

/**
 * Everything that is known about a drawn die and its photo.
 *
 * @param seed seed it was drawn from
 * @param umPerPx sampling
 * @param rotationDeg rotation of the die in the photo, clockwise on the screen
 * @param dieWidthUm die width
 * @param dieHeightUm die height
 * @param wholeDie whether the die edge is in the photo all around
 * @param umToPx map from the die frame to the photo
 * @param technology invented name, or that of the process whose blocks the die holds
 * @param nodeNm process node
 * @param optics microscope and camera
 * @param blocks all blocks of the die, also those outside the photo
 * @param padCentresUm centres of the bond pads that lie in the photo
 */
public record DieTruth(
    long seed,
    double umPerPx,
    double rotationDeg,
    double dieWidthUm,
    double dieHeightUm,
    boolean wholeDie,
    UmToPx umToPx,
    String technology,
    double nodeNm,
    Optics optics,
    List<BlockTruth> blocks,
    List<PointUm> padCentresUm) {
  /** Copies the lists. */
  public DieTruth {
    blocks = List.copyOf(blocks);
    padCentresUm = List.copyOf(padCentresUm);
  }

  /** Stored bits of all memories. */
  public long bits() {
    return blocks.stream().mapToLong(BlockTruth::bits).sum();
  }

  /** Two-input NAND gate equivalents of all logic. */
  public long nand2Equivalents() {
    return blocks.stream().mapToLong(BlockTruth::nand2Equivalents).sum();
  }

  /** Number of bond pads in the photo. */
  public int bondPads() {
    return padCentresUm.size();
  }

  /** The die itself. */
  public RectUm dieUm() {
    return new RectUm(0, 0, dieWidthUm, dieHeightUm);
  }
}
