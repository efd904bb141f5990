package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.comparison.ChangeFinder.Place;
import org.diesurvey.comparison.ChangeFinder.Told;

/** Puts together what is one change in pieces, and drops what a move explains. */
final class PlacePieces {
  /** Steps of a tile from one piece of a change to the next. */
  private static final int APART = 2;

  /** Share of a piece that lies in the box of a larger place of which it is part. */
  private static final double WITHIN = 0.8;

  /** Share of its box that a moved block fills, so that what lies in the box went with it. */
  private static final double BOX = 0.7;

  private final int columns;

  /**
   * @param columns of the grid
   */
  PlacePieces(int columns) {
    this.columns = columns;
  }

  List<Told> together(List<Told> told) {
    List<Told> out = new ArrayList<>(told);
    out.removeIf(t -> told.stream().anyMatch(m -> explains(m.place(), t.place())));
    boolean again = true;
    while (again) {
      again = false;
      for (int i = 0; i < out.size() && !again; i++) {
        for (int k = i + 1; k < out.size() && !again; k++) {
          if (oneChange(out.get(i).place(), out.get(k).place())) {
            out.set(i, joined(out.get(i), out.get(k)));
            out.remove(k);
            again = true;
          }
        }
      }
    }
    return out;
  }

  private static boolean explains(Place moved, Place p) {
    if (moved.move() == null || p.move() != null) {
      return false;
    }
    TileSet at = p.inA() != null ? p.inA() : p.inB();
    return moved.inA().fill() >= BOX
        && at.count() < moved.inA().count()
        && (within(at, moved.inA()) || within(at, moved.inB()));
  }

  /** Whether most of a place lies in the bounding box of another. */
  private static boolean within(TileSet p, TileSet box) {
    double wide = Math.min(p.right(), box.right()) - Math.max(p.left(), box.left());
    double high = Math.min(p.bottom(), box.bottom()) - Math.max(p.top(), box.top());
    double own = (p.right() - p.left()) * (double) (p.bottom() - p.top());
    return wide > 0 && high > 0 && wide * high >= WITHIN * own;
  }

  private boolean oneChange(Place p, Place q) {
    boolean whole = p.inA() == null || p.inB() == null || p.inA() == p.inB();
    boolean otherWhole = q.inA() == null || q.inB() == null || q.inA() == q.inB();
    if (p.kind() != q.kind()
        || !whole
        || !otherWhole
        || p.move() != null
        || !p.classA().equals(q.classA())
        || !p.classB().equals(q.classB())) {
      return false;
    }
    TileSet a = p.inA() != null ? p.inA() : p.inB();
    TileSet b = q.inA() != null ? q.inA() : q.inB();
    if (within(a, b) || within(b, a)) {
      return true;
    }
    boolean[] near = TileSet.grown(a.mask(), columns, APART);
    for (int i = 0; i < near.length; i++) {
      if (near[i] && b.mask()[i]) {
        return true;
      }
    }
    return false;
  }

  private Told joined(Told p, Told q) {
    boolean first = p.place().inA() != null;
    TileSet a = first ? p.place().inA() : p.place().inB();
    TileSet b = first ? q.place().inA() : q.place().inB();
    boolean[] both = a.mask().clone();
    for (int i = 0; i < both.length; i++) {
      both[i] |= b.mask()[i];
    }
    TileSet all = new TileSet(columns, TileSet.openOrClosed(both, columns, APART));
    Place of = a.count() >= b.count() ? p.place() : q.place();
    Place place =
        new Place(
            of.kind(),
            of.classA(),
            of.classB(),
            of.inA() != null ? all : null,
            of.inB() != null ? all : null,
            null);
    return new Told(place, a.count() >= b.count() ? p.confidence() : q.confidence());
  }
}
