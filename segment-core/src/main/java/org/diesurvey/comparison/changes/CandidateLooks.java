package org.diesurvey.comparison.changes;

import java.util.Arrays;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.LogicDistance;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.comparison.tiles.TileSet;

/**
 * What both pictures show at a place: logic or a block, by the tile model and by the distance from
 * the die's own logic; memory or macro; the pad ring, by the surveys.
 */
final class CandidateLooks {
  /**
   * What the logarithm of the distance from logic weighs beside the log odds that the model gives.
   */
  private static final double DISTANCE_WEIGHT = 6;

  /** Log odds at the distance that 95 % of the logic keeps. */
  private static final double AT_LIMIT = 0.5;

  /** Least distance that counts. */
  static final double LEAST_DISTANCE = 0.2;

  private static final Optional<DieClass> RING = Optional.of(DieClass.PAD_RING);
  private static final Optional<DieClass> MEMORY = Optional.of(DieClass.MEMORY_ARRAY);
  private static final Optional<DieClass> MACRO = Optional.of(DieClass.HARD_MACRO);

  final TileComparison agreement;
  final OfBoth<TileClasses> classes;

  /** Log odds of a block over windows. */
  final OfBoth<float[]> block;

  CandidateLooks(TileComparison agreement, OfBoth<TileClasses> classes) {
    this.agreement = agreement;
    this.classes = classes;
    this.block =
        new OfBoth<>(
            odds(agreement.looks.first(), agreement.ground.first()),
            odds(agreement.looks.second(), agreement.ground.second()));
  }

  private float[] odds(TileLooks looks, LogicDistance ground) {
    float[] count = new float[looks.block.length];
    Arrays.fill(count, 1);
    float[] all = agreement.tiles.windows(count);
    float[] out = agreement.tiles.windows(looks.block);
    for (int i = 0; i < out.length; i++) {
      out[i] /= all[i];
      if (ground.known()) {
        double d = Math.log(Math.max(LEAST_DISTANCE, ground.at(i)));
        out[i] += (float) (AT_LIMIT + DISTANCE_WEIGHT * d);
      }
    }
    return out;
  }

  /** Whether the ground looks like a block in one of the pictures. */
  boolean isBlock(TileSet part, boolean first) {
    return TileLooks.mean(block.of(first), part.mask()) > 0;
  }

  /** Whether both surveys see the pad ring there. */
  boolean inRing(TileSet part) {
    return ChangeFinder.main(classes.first(), part.mask()).equals(RING)
        && ChangeFinder.main(classes.second(), part.mask()).equals(RING);
  }

  /** What the picture shows of a block; the pad ring where both surveys say so. */
  Optional<DieClass> blockClass(TileSet part, boolean first) {
    if (inRing(part)) {
      return RING;
    }
    return TileLooks.mean(agreement.looks.of(first).memory, part.mask()) > MemoryOdds.MEMORY
        ? MEMORY
        : MACRO;
  }

  /** Whether the pad ring forbids a move, see {@link MovedGround#ofRing}. */
  boolean ofRing(TileSet inA, TileSet inB, double likeness) {
    return MovedGround.ofRing(inRing(inA), inRing(inB), likeness / agreement.typical);
  }

  private Optional<DieClass> plainClass(TileSet part, boolean first) {
    Optional<DieClass> c = ChangeFinder.main(classes.of(first), part.mask());
    return c.equals(RING) ? RING : Optional.of(DieClass.LOGIC);
  }

  private Optional<DieClass> groundClass(TileSet part, boolean first) {
    return isBlock(part, first) ? blockClass(part, first) : plainClass(part, first);
  }

  /** A place that changed as a whole, with the classes that the pictures show; no move. */
  ChangeCandidate place(ChangeKind kind, TileSet part) {
    return place(kind, part, part, part);
  }

  /** The same place as another kind of change; one that did not move cannot become a move. */
  ChangeCandidate as(ChangeCandidate place, ChangeKind kind) {
    if (place.kind() == kind) {
      return place;
    }
    TileSet all = place.ground();
    return place(
        kind,
        all,
        place.inA() != null ? place.inA() : all,
        place.inB() != null ? place.inB() : all);
  }

  private ChangeCandidate place(ChangeKind kind, TileSet all, TileSet a, TileSet b) {
    return switch (kind) {
      case GONE ->
          new ChangeCandidate(kind, blockClass(a, true), plainClass(a, false), a, null, null);
      case NEW ->
          new ChangeCandidate(kind, plainClass(b, true), blockClass(b, false), null, b, null);
      case CLASS -> {
        boolean memoryLeft =
            TileLooks.mean(agreement.looks.first().memory, all.mask())
                > TileLooks.mean(agreement.looks.second().memory, all.mask());
        yield new ChangeCandidate(
            kind, memoryLeft ? MEMORY : MACRO, memoryLeft ? MACRO : MEMORY, all, all, null);
      }
      case RESIZED -> {
        boolean shrank =
            TileLooks.mean(block.first(), all.mask()) > TileLooks.mean(block.second(), all.mask());
        yield new ChangeCandidate(
            kind,
            shrank ? blockClass(all, true) : plainClass(all, true),
            shrank ? plainClass(all, false) : blockClass(all, false),
            all,
            all,
            null);
      }
      case TEXTURE ->
          new ChangeCandidate(
              kind, groundClass(all, true), groundClass(all, false), all, all, null);
      case MOVED -> throw new IllegalArgumentException("a move needs a shift");
    };
  }
}
