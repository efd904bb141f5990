package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.DifferenceMap.State;

/**
 * From tiles that differ to changes: moves are taken out first, what is left hangs together in
 * places, and each place is named by what the two surveys call its ground.
 */
final class ChangeFinder {
  /** Fewest tiles of a place that counts: windows lose a rim of about a tile. */
  private static final int LEAST_TILES = 9;

  /** Sides closer than this, in tiles, are the same side. */
  private static final double SAME_SIDE_TILES = 2.5;

  /** Share of the changed tiles of a block that a move must carry. */
  private static final double WHOLE = 0.6;

  /** Pieces that shifted by less are the same block, um. */
  private static final double SMALL_UM = 10;

  private final TileAgreement agreement;
  private final TileClasses classesA;
  private final TileClasses classesB;
  private final int columns;

  ChangeFinder(TileAgreement agreement, TileClasses classesA, TileClasses classesB) {
    this.agreement = agreement;
    this.classesA = classesA;
    this.classesB = classesB;
    this.columns = agreement.tiles.columns;
  }

  /**
   * A change on the grid.
   *
   * @param kind what happened
   * @param classA ground in the first die; empty if unclear
   * @param classB ground in the second
   * @param inA tiles in the first die; null for new blocks
   * @param inB tiles in the second die; null where gone
   * @param move for moved blocks, else null
   */
  record Place(
      ChangeKind kind,
      Optional<DieClass> classA,
      Optional<DieClass> classB,
      TileSet inA,
      TileSet inB,
      MoveFinder.Move move) {}

  List<Place> find(double pitchUm) {
    boolean[] different = agreement.is(State.DIFFERENT);
    boolean[] solid = solid(different);
    List<Place> out = new ArrayList<>();
    boolean[] explained = new boolean[solid.length];
    for (MoveFinder.Move m : new MoveFinder(agreement, pitchUm).find(solid)) {
      int dx = (int) Math.round(m.dx() / agreement.tiles.side);
      int dy = (int) Math.round(m.dy() / agreement.tiles.side);
      TileSet there = new TileSet(columns, m.tiles().shifted(dx, dy));
      if (!whole(m.tiles(), solid, classesA) || !whole(there, solid, classesB)) {
        if (Math.hypot(m.dx(), m.dy()) * pitchUm < SMALL_UM) {
          mark(explained, m.tiles().mask());
        }
        continue;
      }
      Optional<DieClass> c = main(classesA, m.tiles().mask());
      Optional<DieClass> d = main(classesB, there.mask());
      out.add(new Place(ChangeKind.MOVED, c, d, m.tiles(), there, m));
      mark(explained, TileSet.grown(m.tiles().mask(), columns, 3));
      mark(explained, TileSet.grown(there.mask(), columns, 3));
    }
    boolean[] left = new boolean[solid.length];
    for (int i = 0; i < left.length; i++) {
      left[i] = solid[i] && !explained[i];
    }
    left = TileSet.grown(TileSet.grown(left, columns, 1), columns, -1);
    for (TileSet part : TileSet.parts(left, columns)) {
      if (part.count() < LEAST_TILES || thin(part)) {
        continue;
      }
      out.add(named(part));
    }
    return out;
  }

  /** Whether the tiles are most of what changed in their region: a piece of a block is no move. */
  private boolean whole(TileSet part, boolean[] changed, TileClasses classes) {
    Map<Integer, Integer> counts = new HashMap<>();
    for (int i = 0; i < changed.length; i++) {
      if (part.mask()[i] && block(classes.at(i))) {
        counts.merge(classes.region[i], 1, Integer::sum);
      }
    }
    int in = 0;
    int all = 0;
    boolean[] near = TileSet.grown(part.mask(), columns, 12);
    for (int i = 0; i < changed.length; i++) {
      if (changed[i] && near[i] && counts.getOrDefault(classes.region[i], 0) > 4) {
        all++;
        in += part.mask()[i] ? 1 : 0;
      }
    }
    return in >= WHOLE * all;
  }

  /** A scratch or an edge of residue is long but narrow. */
  private boolean thin(TileSet part) {
    boolean[] core = TileSet.grown(part.mask(), columns, -1);
    for (boolean b : core) {
      if (b) {
        return false;
      }
    }
    return true;
  }

  /** Without single tiles and threads. */
  private boolean[] solid(boolean[] in) {
    boolean[] out = in.clone();
    int rows = in.length / columns;
    for (int i = 0; i < in.length; i++) {
      int n = 0;
      int all = 0;
      for (int y = Math.max(0, i / columns - 1); y <= Math.min(rows - 1, i / columns + 1); y++) {
        for (int x = Math.max(0, i % columns - 1);
            x <= Math.min(columns - 1, i % columns + 1);
            x++) {
          n += in[y * columns + x] ? 1 : 0;
          all++;
        }
      }
      out[i] = 2 * n > all;
    }
    return out;
  }

  private static void mark(boolean[] to, boolean[] from) {
    for (int i = 0; i < to.length; i++) {
      to[i] |= from[i];
    }
  }

  private static boolean block(DieClass c) {
    return c == DieClass.MEMORY_ARRAY || c == DieClass.HARD_MACRO;
  }

  private Place named(TileSet part) {
    double blockA = share(classesA, part.mask());
    double blockB = share(classesB, part.mask());
    Optional<DieClass> a = main(classesA, part.mask());
    Optional<DieClass> b = main(classesB, part.mask());
    boolean isA = blockA > 0.5;
    boolean isB = blockB > 0.5;
    if (!isA && !isB) {
      return new Place(ChangeKind.TEXTURE, a, b, part, part, null);
    }
    if (isA && !isB) {
      return continues(part, classesA)
          ? new Place(ChangeKind.RESIZED, a, b, part, part, null)
          : new Place(ChangeKind.GONE, a, b, part, null, null);
    }
    if (!isA) {
      return continues(part, classesB)
          ? new Place(ChangeKind.RESIZED, a, b, part, part, null)
          : new Place(ChangeKind.NEW, a, b, null, part, null);
    }
    if (!a.equals(b)) {
      return new Place(ChangeKind.CLASS, a, b, part, part, null);
    }
    TileSet boxA = blockTiles(classesA, part);
    TileSet boxB = blockTiles(classesB, part);
    boolean sides =
        Math.abs(boxA.left() - boxB.left()) > SAME_SIDE_TILES
            || Math.abs(boxA.right() - boxB.right()) > SAME_SIDE_TILES
            || Math.abs(boxA.top() - boxB.top()) > SAME_SIDE_TILES
            || Math.abs(boxA.bottom() - boxB.bottom()) > SAME_SIDE_TILES;
    return sides
        ? new Place(ChangeKind.RESIZED, a, b, boxA, boxB, null)
        : new Place(ChangeKind.TEXTURE, a, b, part, part, null);
  }

  private TileSet blockTiles(TileClasses classes, TileSet part) {
    boolean[] out = new boolean[part.mask().length];
    for (int i = 0; i < out.length; i++) {
      out[i] = part.mask()[i] && block(classes.at(i));
    }
    return new TileSet(columns, out);
  }

  /**
   * Whether the block that holds most of the place goes on beside it, unchanged, between the same
   * flanking sides: then the place is a piece of it.
   */
  private boolean continues(TileSet part, TileClasses classes) {
    Map<Integer, Integer> counts = new HashMap<>();
    for (int i = 0; i < part.mask().length; i++) {
      if (part.mask()[i] && block(classes.at(i))) {
        counts.merge(classes.region[i], 1, Integer::sum);
      }
    }
    int region =
        counts.entrySet().stream()
            .max(Map.Entry.<Integer, Integer>comparingByValue().thenComparing(Map.Entry::getKey))
            .map(Map.Entry::getKey)
            .orElse(-1);
    boolean[] rest = new boolean[part.mask().length];
    boolean[] near = TileSet.grown(part.mask(), columns, 3);
    for (int i = 0; i < rest.length; i++) {
      rest[i] =
          classes.region[i] == region
              && !part.mask()[i]
              && agreement.state[i] == State.SAME.ordinal();
    }
    for (TileSet s : TileSet.parts(rest, columns)) {
      if (s.count() < Math.max(LEAST_TILES, 0.15 * part.count())) {
        return false;
      }
      boolean touches = false;
      for (int i = 0; i < rest.length && !touches; i++) {
        touches = s.mask()[i] && near[i];
      }
      boolean sameColumns =
          Math.abs(s.left() - part.left()) <= SAME_SIDE_TILES
              && Math.abs(s.right() - part.right()) <= SAME_SIDE_TILES;
      boolean sameRows =
          Math.abs(s.top() - part.top()) <= SAME_SIDE_TILES
              && Math.abs(s.bottom() - part.bottom()) <= SAME_SIDE_TILES;
      if (touches && (sameColumns || sameRows)) {
        return true;
      }
    }
    return false;
  }

  private double share(TileClasses classes, boolean[] mask) {
    int n = 0;
    int all = 0;
    for (int i = 0; i < mask.length; i++) {
      if (mask[i]) {
        all++;
        n += block(classes.at(i)) ? 1 : 0;
      }
    }
    return n / (double) Math.max(1, all);
  }

  /** The most frequent class; empty where that is none. */
  static Optional<DieClass> main(TileClasses classes, boolean[] mask) {
    int[] counts = new int[DieClass.values().length];
    for (int i = 0; i < mask.length; i++) {
      if (mask[i]) {
        counts[classes.at(i).ordinal()]++;
      }
    }
    int best = DieClass.UNCLEAR.ordinal();
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.UNCLEAR && counts[c.ordinal()] > 0) {
        if (best == DieClass.UNCLEAR.ordinal() || counts[c.ordinal()] > counts[best]) {
          best = c.ordinal();
        }
      }
    }
    DieClass c = DieClass.values()[best];
    return c == DieClass.UNCLEAR ? Optional.empty() : Optional.of(c);
  }
}
