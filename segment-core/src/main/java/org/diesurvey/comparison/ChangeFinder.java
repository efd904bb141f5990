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

  /** Share of the changed tiles of a block that a move must carry. */
  private static final double WHOLE = 0.5;

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
    PlaceNamer namer = new PlaceNamer(agreement, classesA, classesB);
    boolean[] explained = new boolean[solid.length];
    for (MoveFinder.Move m : new MoveFinder(agreement, pitchUm).find(solid)) {
      int dx = (int) Math.round(m.dx() / agreement.tiles.side);
      int dy = (int) Math.round(m.dy() / agreement.tiles.side);
      TileSet there = new TileSet(columns, m.tiles().shifted(dx, dy));
      if (!namer.isBlock(m.tiles(), true) || !namer.isBlock(there, false)) {
        continue;
      }
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
    left = TileSet.openOrClosed(left, columns, 1);
    List<Place> named = new ArrayList<>();
    for (TileSet part : TileSet.parts(left, columns)) {
      if (part.count() < LEAST_TILES || thin(part)) {
        continue;
      }
      for (Place p : namer.places(part, LEAST_TILES)) {
        if (deceives(p)) {
          notJudged(p.inA());
        } else {
          named.add(p);
        }
      }
    }
    out.addAll(namer.paired(named));
    return out;
  }

  /** Small other content in a block, and memory of which only the lattice differs. */
  private boolean deceives(Place p) {
    if (p.kind() != ChangeKind.TEXTURE) {
      return false;
    }
    boolean logic = p.classB().filter(DieClass.LOGIC::equals).isPresent();
    boolean memory = p.classA().filter(DieClass.MEMORY_ARRAY::equals).isPresent();
    return !logic && p.inA().count() < LEAST_CONTENT || memory && lattice(p.inA());
  }

  private void notJudged(TileSet part) {
    for (int i = 0; i < agreement.state.length; i++) {
      if (part.mask()[i]) {
        agreement.state[i] = (byte) State.NOT_JUDGED.ordinal();
      }
    }
  }

  /** Whether the tiles are most of what changed in their region: a piece of a block is no move. */
  private boolean whole(TileSet part, boolean[] changed, TileClasses classes) {
    Map<Integer, Integer> counts = new HashMap<>();
    for (int i = 0; i < changed.length; i++) {
      if (part.mask()[i] && TileClasses.isBlock(classes.at(i))) {
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
