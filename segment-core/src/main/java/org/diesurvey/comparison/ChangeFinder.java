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

  /** The same for other content in a block or the pad ring, where dirt and calm ground deceive. */
  private static final int LEAST_CONTENT = 24;

  /** Sides closer than this, in tiles, are the same side. */
  private static final double SAME_SIDE_TILES = 2.5;

  /** Share of the changed tiles of a block that a move must carry. */
  private static final double WHOLE = 0.5;

  /** A place of which this share is of one kind is not split. */
  private static final double ONE_KIND = 0.7;

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
    for (TileSet part : split(TileSet.parts(left, columns))) {
      if (part.count() < LEAST_TILES || thin(part)) {
        continue;
      }
      Place p = named(part);
      boolean content = p.kind() == ChangeKind.TEXTURE;
      boolean logic = p.classB().filter(DieClass.LOGIC::equals).isPresent();
      boolean memory = p.classA().filter(DieClass.MEMORY_ARRAY::equals).isPresent();
      if (content && (!logic && part.count() < LEAST_CONTENT || memory && lattice(part))) {
        for (int i = 0; i < agreement.state.length; i++) {
          if (part.mask()[i]) {
            agreement.state[i] = (byte) State.NOT_JUDGED.ordinal();
          }
        }
        continue;
      }
      out.add(p);
    }
    return out;
  }

  /**
   * Places in which neighbouring changes run together are split by what the ground was and became:
   * block or not.
   */
  private List<TileSet> split(List<TileSet> parts) {
    List<TileSet> out = new ArrayList<>();
    for (TileSet part : parts) {
      boolean[][] kinds = new boolean[4][part.mask().length];
      int[] counts = new int[4];
      for (int i = 0; i < part.mask().length; i++) {
        if (part.mask()[i]) {
          int k = (block(classesA.at(i)) ? 1 : 0) + (block(classesB.at(i)) ? 2 : 0);
          kinds[k][i] = true;
          counts[k]++;
        }
      }
      int most = Math.max(Math.max(counts[0], counts[1]), Math.max(counts[2], counts[3]));
      ChangeKind whole = part.count() < LEAST_TILES ? ChangeKind.TEXTURE : named(part).kind();
      if (most >= ONE_KIND * part.count()
          || whole == ChangeKind.RESIZED
          || whole == ChangeKind.CLASS) {
        out.add(part);
      } else {
        for (boolean[] k : kinds) {
          out.addAll(TileSet.parts(k, columns));
        }
      }
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
    TileSet boxA = region(classesA, part);
    TileSet boxB = region(classesB, part);
    if (boxA.count() > 0 && boxB.count() > 0 && resized(boxA, boxB)) {
      return new Place(ChangeKind.RESIZED, a, b, boxA, boxB, null);
    }
    return new Place(ChangeKind.TEXTURE, a, b, part, part, null);
  }

  /** Whether a side moved, over ground that does not stay the same. */
  private boolean resized(TileSet a, TileSet b) {
    int[] moved = {
      a.left() - b.left(), a.right() - b.right(), a.top() - b.top(), a.bottom() - b.bottom()
    };
    boolean any = false;
    for (int m : moved) {
      any |= Math.abs(m) > SAME_SIDE_TILES;
    }
    if (!any) {
      return false;
    }
    int only = 0;
    int changed = 0;
    for (int i = 0; i < a.mask().length; i++) {
      if (a.mask()[i] != b.mask()[i]) {
        only++;
        changed += agreement.state[i] == State.SAME.ordinal() ? 0 : 1;
      }
    }
    return changed >= 0.5 * only;
  }

  /** The block that holds most of the place, as surveyed, near the place. */
  private TileSet region(TileClasses classes, TileSet part) {
    int region = mainRegion(classes, part);
    boolean[] near = TileSet.grown(part.mask(), columns, 25);
    boolean[] out = new boolean[near.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = near[i] && region >= 0 && classes.region[i] == region;
    }
    return new TileSet(columns, out);
  }

  /** Whether the ground around a place in memory stays the same: then only lattice differs. */
  private boolean lattice(TileSet part) {
    boolean[] wide = TileSet.grown(part.mask(), columns, 3);
    int ring = 0;
    int same = 0;
    for (int i = 0; i < wide.length; i++) {
      if (wide[i] && !part.mask()[i] && classesA.at(i) == DieClass.MEMORY_ARRAY) {
        ring++;
        same += agreement.state[i] == State.SAME.ordinal() ? 1 : 0;
      }
    }
    return same >= 0.3 * ring && ring > 0;
  }

  /**
   * Whether the block that holds most of the place goes on beside it, unchanged, between the same
   * flanking sides: then the place is a piece of it.
   */
  private boolean continues(TileSet part, TileClasses classes) {
    int region = mainRegion(classes, part);
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

  private static int mainRegion(TileClasses classes, TileSet part) {
    Map<Integer, Integer> counts = new HashMap<>();
    for (int i = 0; i < part.mask().length; i++) {
      if (part.mask()[i] && block(classes.at(i))) {
        counts.merge(classes.region[i], 1, Integer::sum);
      }
    }
    return counts.entrySet().stream()
        .max(Map.Entry.<Integer, Integer>comparingByValue().thenComparing(Map.Entry::getKey))
        .map(Map.Entry::getKey)
        .orElse(-1);
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
