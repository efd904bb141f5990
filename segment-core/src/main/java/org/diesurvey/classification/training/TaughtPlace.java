package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.tiles.TileGrid;

/**
 * One outline, or a part of one, as samples of one photograph.
 *
 * @param photo number of the photograph
 * @param region number of the outline there
 * @param label surface class ordinal of most of its tiles
 * @param fold which part of a cross-validation leaves it out; negative: none does
 * @param tiles that are samples
 */
record TaughtPlace(int photo, int region, int label, int fold, List<Integer> tiles) {
  /** Fewest sound tiles that an outline must hold to count. */
  static final int FEWEST_TILES = 12;

  private static final int NEVER_OUT = -1;

  /** Tiles on each side of a cut that belong to no part: the widest window reaches 7 tiles. */
  private static final int GUARD = 7;

  TaughtPlace {
    tiles = List.copyOf(tiles);
  }

  /** The outlines with enough tiles, photograph by photograph. */
  static List<TaughtPlace> of(List<TaughtTiles> photos) {
    List<TaughtPlace> out = new ArrayList<>();
    for (int p = 0; p < photos.size(); p++) {
      TaughtTiles photo = photos.get(p);
      for (int r = 0; r < photo.regionCount(); r++) {
        List<Integer> tiles = photo.samples(r);
        if (tiles.size() >= FEWEST_TILES) {
          out.add(new TaughtPlace(p, r, mostly(photo, tiles), NEVER_OUT, tiles));
        }
      }
    }
    return out;
  }

  private static int mostly(TaughtTiles photo, List<Integer> tiles) {
    int[] count = new int[SurfaceClass.COUNT];
    tiles.forEach(t -> count[photo.label(t)]++);
    int most = 0;
    for (int k = 1; k < count.length; k++) {
      most = count[k] > count[most] ? k : most;
    }
    return most;
  }

  /**
   * The outlines dealt out to folds, class by class, so that every class is still taught where some
   * of it is left out. The only outline of a class is cut across its longer side, with a guard of
   * tiles between the parts; if it is too small for that, it is never left out.
   */
  static List<TaughtPlace> parts(List<TaughtPlace> places, List<TaughtTiles> photos, int folds) {
    List<TaughtPlace> out = new ArrayList<>();
    int[] all = new int[SurfaceClass.COUNT];
    places.forEach(p -> all[p.label()]++);
    int[] seen = new int[SurfaceClass.COUNT];
    for (TaughtPlace p : places) {
      if (all[p.label()] > 1) {
        out.add(p.with((seen[p.label()]++ + p.label()) % folds, p.tiles()));
      } else {
        out.addAll(p.cut(photos.get(p.photo()).features().grid(), folds));
      }
    }
    return out;
  }

  private List<TaughtPlace> cut(TileGrid grid, int parts) {
    int[] rows = tiles.stream().mapToInt(t -> t / grid.columns()).toArray();
    int[] columns = tiles.stream().mapToInt(t -> t % grid.columns()).toArray();
    int[] along = span(columns) >= span(rows) ? columns : rows;
    int low = Arrays.stream(along).min().getAsInt();
    int span = span(along) + 1;
    List<TaughtPlace> out = new ArrayList<>();
    for (int i = 0; i < parts; i++) {
      int from = low + span * i / parts + (i > 0 ? GUARD : 0);
      int to = low + span * (i + 1) / parts - (i < parts - 1 ? GUARD : 0);
      List<Integer> part =
          IntStream.range(0, along.length)
              .filter(t -> along[t] >= from && along[t] < to)
              .mapToObj(tiles::get)
              .toList();
      if (part.size() < FEWEST_TILES) {
        return List.of(this);
      }
      out.add(with(i, part));
    }
    return out;
  }

  private static int span(int[] v) {
    return Arrays.stream(v).max().getAsInt() - Arrays.stream(v).min().getAsInt();
  }

  private TaughtPlace with(int otherFold, List<Integer> some) {
    return new TaughtPlace(photo, region, label, otherFold, some);
  }

  /** The classes of all tiles of the photograph, those of this place kept, the others no sample. */
  int[] labels(TaughtTiles of) {
    int[] out = new int[of.labels().length];
    Arrays.fill(out, TaughtTiles.NO_SAMPLE);
    tiles.forEach(t -> out[t] = of.label(t));
    return out;
  }
}
