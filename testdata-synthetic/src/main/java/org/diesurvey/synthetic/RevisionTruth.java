package org.diesurvey.synthetic;

import java.util.List;
import java.util.Optional;

/**
 * How two drawn dies differ and how they were photographed.
 *
 * @param seed seed of the pair
 * @param sameChip false for two chips that have only technology and size in common; they have no
 *     changes
 * @param changes differences, without the growth of the die
 * @param firstDieUm die of the first revision, at the origin
 * @param secondDieUm die of the second revision as it lies in the die frame of the first: larger
 *     and perhaps with a negative corner where it has grown, else the same
 * @param orientation how the second die lies in its photograph against the first: bit 1 mirrored
 *     along x, bit 2 along y, bit 4 x and y exchanged afterwards
 * @param firstStatedUmPerPx pitch that a person states for the first photograph: the true one
 * @param secondStatedUmPerPx pitch stated for the second photograph, up to 5 % off
 */
public record RevisionTruth(
    long seed,
    boolean sameChip,
    List<RevisionChange> changes,
    RectUm firstDieUm,
    RectUm secondDieUm,
    int orientation,
    double firstStatedUmPerPx,
    double secondStatedUmPerPx) {
  /** Copies the list. */
  public RevisionTruth {
    changes = List.copyOf(changes);
  }

  /** The strip that a grown die has more, in the die frame of the first; empty if it has none. */
  public Optional<RectUm> grownUm() {
    RectUm a = firstDieUm;
    RectUm b = secondDieUm;
    if (b.xUm() < a.xUm()) {
      return Optional.of(new RectUm(b.xUm(), b.yUm(), a.xUm() - b.xUm(), b.heightUm()));
    }
    if (b.yUm() < a.yUm()) {
      return Optional.of(new RectUm(b.xUm(), b.yUm(), b.widthUm(), a.yUm() - b.yUm()));
    }
    if (b.rightUm() > a.rightUm()) {
      return Optional.of(new RectUm(a.rightUm(), b.yUm(), b.rightUm() - a.rightUm(), b.heightUm()));
    }
    if (b.bottomUm() > a.bottomUm()) {
      return Optional.of(
          new RectUm(b.xUm(), a.bottomUm(), b.widthUm(), b.bottomUm() - a.bottomUm()));
    }
    return Optional.empty();
  }

  /**
   * Where a place lies in the second photograph's own die frame: origin at the upper left corner of
   * the die as it lies there, turned upright.
   *
   * @param inFirst rectangle in the die frame of the first revision
   */
  public RectUm inSecond(RectUm inFirst) {
    double w = secondDieUm.widthUm();
    double h = secondDieUm.heightUm();
    double x = inFirst.xUm() - secondDieUm.xUm();
    double y = inFirst.yUm() - secondDieUm.yUm();
    double mx = (orientation & 1) != 0 ? w - x - inFirst.widthUm() : x;
    double my = (orientation & 2) != 0 ? h - y - inFirst.heightUm() : y;
    return (orientation & 4) != 0
        ? new RectUm(my, mx, inFirst.heightUm(), inFirst.widthUm())
        : new RectUm(mx, my, inFirst.widthUm(), inFirst.heightUm());
  }
}
