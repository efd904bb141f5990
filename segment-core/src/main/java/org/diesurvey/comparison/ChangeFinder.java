package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.DifferenceMap.State;

/**
 * From tiles that differ to changes: moves are taken out first, what is left hangs together in
 * places, and each place is named by what the two surveys call its ground.
 */
final class ChangeFinder {
  /** Fewest tiles of a place that counts, and of its shorter side. */
  private static final int LEAST_TILES = 20;

  private static final int LEAST_SIDE = 5;

  /**
   * Share of a small place that must show structure: a speck of dirt is wide by its window only.
   */
  private static final double LEAST_STRUCTURED = 0.6;

  private static final int SMALL_TILES = 80;

  /** Share of its bounding box that makes changed ground one box. */
  private static final double ONE_BOX = 0.8;

  /** Mean correlation of a moved block with itself at its new place. */
  private static final double LEAST_LIKENESS = 0.5;

  /** Log odds of a surely changed tile, and the share of them in a place; less in logic. */
  private static final float SURE = 2;

  private static final double LEAST_SURE = 0.45;
  private static final double LEAST_SURE_IN_LOGIC = 0.2;

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

  /**
   * @param grown whether the die changed its size: then what the pad ring covers is left out
   */
  List<Place> find(double pitchUm, boolean grown) {
    boolean[] solid = agreement.is(State.DIFFERENT);
    for (int i = 0; i < solid.length; i++) {
      solid[i] &= !grown || !TileClasses.inRing(classesA, classesB, i);
    }
    for (TileSet part : TileSet.parts(solid, columns)) {
      if (sure(part) < LEAST_SURE_IN_LOGIC) {
        for (int i = 0; i < solid.length; i++) {
          solid[i] &= !part.mask()[i];
        }
      }
    }
    List<Place> out = new ArrayList<>();
    PlaceNamer namer = new PlaceNamer(agreement, classesA, classesB);
    boolean[] explained = new boolean[solid.length];
    for (MoveFinder.Move m : new MoveFinder(agreement, pitchUm).find(solid)) {
      int dx = (int) Math.round(m.dx() / agreement.tiles.side);
      int dy = (int) Math.round(m.dy() / agreement.tiles.side);
      TileSet there = new TileSet(columns, m.tiles().shifted(dx, dy));
      if (m.similarity() >= LEAST_LIKENESS
          && namer.isBlock(m.tiles(), true)
          && namer.isBlock(there, false)
          && !namer.ofRing(m.tiles(), there, m.similarity())
          && !thin(m.tiles())
          && namer.leaves(m.tiles(), there)
          && (m.similarity() >= MovedGround.SURE_LIKENESS * agreement.typical
              || namer.sameBlock(m.tiles(), there, dx, dy))) {
        out.add(
            new Place(
                ChangeKind.MOVED,
                namer.blockClass(m.tiles(), true),
                namer.blockClass(there, false),
                m.tiles(),
                there,
                m));
        mark(explained, TileSet.grown(m.tiles().mask(), columns, 3));
        mark(explained, TileSet.grown(there.mask(), columns, 3));
      }
    }
    boolean[] left = new boolean[solid.length];
    for (int i = 0; i < left.length; i++) {
      left[i] = solid[i] && !explained[i];
    }
    left = TileSet.openOrClosed(left, columns, 1);
    List<Place> named = new ArrayList<>();
    for (TileSet whole : TileSet.parts(left, columns)) {
      named.addAll(oneOf(whole, named(namer, whole)));
    }
    out.addAll(namer.pieces(namer.paired(named)));
    return out;
  }

  private List<Place> named(PlaceNamer namer, TileSet whole) {
    List<Place> out = new ArrayList<>();
    for (TileSet part : ChangeParts.of(whole, agreement.odds, columns)) {
      if (part.count() < LEAST_TILES || thin(part) || !structured(part)) {
        continue;
      }
      boolean logic = !namer.isBlock(part, true) && !namer.isBlock(part, false);
      for (Place p : namer.joined(namer.places(part, LEAST_TILES))) {
        if (!thin(p.inA() != null ? p.inA() : p.inB())
            && sure(part) >= (logic ? LEAST_SURE_IN_LOGIC : LEAST_SURE)) {
          out.add(p);
        }
      }
    }
    return out;
  }

  /** Parts of one box that all changed the same way are one change. */
  private static List<Place> oneOf(TileSet whole, List<Place> parts) {
    if (parts.size() < 2 || whole.fill() < ONE_BOX) {
      return parts;
    }
    Place first = parts.get(0);
    boolean shaped = first.kind() == ChangeKind.MOVED || first.kind() == ChangeKind.RESIZED;
    for (Place p : parts) {
      if (shaped
          || p.kind() != first.kind()
          || !p.classA().equals(first.classA())
          || !p.classB().equals(first.classB())) {
        return parts;
      }
    }
    return List.of(
        new Place(
            first.kind(),
            first.classA(),
            first.classB(),
            first.inA() != null ? whole : null,
            first.inB() != null ? whole : null,
            null));
  }

  private double sure(TileSet part) {
    int n = 0;
    for (int i = 0; i < part.mask().length; i++) {
      n += part.mask()[i] && agreement.odds[i] > SURE ? 1 : 0;
    }
    return n / (double) Math.max(1, part.count());
  }

  private boolean structured(TileSet part) {
    int n = 0;
    for (int i = 0; i < part.mask().length; i++) {
      n += part.mask()[i] && agreement.evidence.structured[i] ? 1 : 0;
    }
    return part.count() >= SMALL_TILES || n >= LEAST_STRUCTURED * part.count();
  }

  /** A scratch or an edge of residue is long but narrow. */
  private boolean thin(TileSet part) {
    int shorter = Math.min(part.right() - part.left(), part.bottom() - part.top());
    boolean[] core = TileSet.grown(part.mask(), columns, -1);
    for (boolean b : core) {
      if (b) {
        return shorter < LEAST_SIDE;
      }
    }
    return true;
  }

  private static void mark(boolean[] to, boolean[] from) {
    for (int i = 0; i < to.length; i++) {
      to[i] |= from[i];
    }
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
