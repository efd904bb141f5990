package org.diesurvey.regions;

import java.util.List;
import org.diesurvey.TunedValue;

/**
 * What decides which patches are dust, scratches and doubt rather than blocks.
 *
 * @param sure mean probability that makes a small patch sure of itself, so that it stays
 * @param thinUm rows on bare ground that vanish when they are opened by half of this, rounded to
 *     whole tiles, are taken for a scratch, um: at 8 um a tile those below 40 um
 * @param stripTiles an oblique strip is no wider than twice this and one, tiles: about the largest
 *     window of the features
 * @param undecidedBelow confidence below which a region is left undecided
 */
public record PatchTuning(double sure, double thinUm, int stripTiles, double undecidedBelow) {
  /** The values of ordinary surveys. */
  public static final PatchTuning DEFAULT = new PatchTuning(0.75, 24, 7, 0.15);

  /** Rejects what is no positive number. */
  public PatchTuning {
    TunedValue.requirePositive(sure, thinUm, stripTiles, undecidedBelow);
  }

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<PatchTuning>> values() {
    return List.of(
        new TunedValue<>(
            "sure",
            "share",
            sure,
            "own choice; weak patches: drawn dies, o1 to o3, o6 and o7 (2026-11-29)",
            v -> new PatchTuning(v, thinUm, stripTiles, undecidedBelow)),
        new TunedValue<>(
            "thinUm",
            "um",
            thinUm,
            MemoryTuning.LAST_CHOICE,
            v -> new PatchTuning(sure, v, stripTiles, undecidedBelow)),
        new TunedValue<>(
            "stripTiles",
            TunedValue.TILES,
            stripTiles,
            "the largest window of the features",
            v -> new PatchTuning(sure, thinUm, (int) v, undecidedBelow)),
        new TunedValue<>(
            "undecidedBelow",
            "share",
            undecidedBelow,
            "174 drawn dies (2026-11-30): regions stated at 0.12 to 0.25 are right in 28 %",
            v -> new PatchTuning(sure, thinUm, stripTiles, v)));
  }
}
