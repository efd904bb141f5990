package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.changes.ChangeFinder.ConfirmedChange;
import org.diesurvey.comparison.tiles.TileSet;

/** Puts together what is one change in pieces, and drops what a move explains. */
final class CandidatePieces {
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
  CandidatePieces(int columns) {
    this.columns = columns;
  }

  List<ConfirmedChange> together(List<ConfirmedChange> told) {
    List<ConfirmedChange> out = new ArrayList<>(told);
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

  private static boolean explains(ChangeCandidate moved, ChangeCandidate p) {
    if (moved.move() == null || p.move() != null) {
      return false;
    }
    TileSet at = p.tiles();
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

  /** Whether a place has the same extent in both dies, or lies in one only. */
  private static boolean whole(ChangeCandidate p) {
    return p.ground() == p.tiles();
  }

  private boolean oneChange(ChangeCandidate p, ChangeCandidate q) {
    if (!p.like(q) || !whole(p) || !whole(q) || p.move() != null) {
      return false;
    }
    TileSet a = p.tiles();
    TileSet b = q.tiles();
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

  private ConfirmedChange joined(ConfirmedChange p, ConfirmedChange q) {
    TileSet a = p.place().tiles();
    TileSet b = q.place().tiles();
    ConfirmedChange larger = a.count() >= b.count() ? p : q;
    boolean[] all = TileSet.closed(a.with(b).mask(), columns, APART);
    return new ConfirmedChange(larger.place().over(new TileSet(columns, all)), larger.confidence());
  }
}
