package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.comparison.tiles.TileSet;

/**
 * Names a place that differs by how its ground looks in both pictures: like the die's own logic, or
 * like a block, by the tile model and by the distance from logic.
 */
final class ChangeNamer {
  /** How far below the block that remains what it left must be, log odds. */
  private static final double CLEARLY_LESS = 3;

  /** Mean log odds of what is surely a block. */
  private static final double SURELY_BLOCK = 1.5;

  /** Tiles by which both sides of a moved block may differ. */
  private static final int SAME_SIZE_TILES = 3;

  /** A place of which this share is of one kind is not split. */
  private static final double ONE_KIND = 0.75;

  /** Share of a place that a kind of ground must have to count. */
  private static final double LEAST_SHARE = 0.15;

  /** Share of its bounding box that a block fills. */
  private static final double BOX = 0.7;

  /** Shortest side of a piece of a place, tiles: the rim of a block is no change of its own. */
  private static final int LEAST_SIDE = 4;

  /** Logic beside a changed block that is no wider than twice this is the rim of the block. */
  private static final int RIM_TILES = 2;

  /** Sides closer than this, in tiles, are the same side. */
  private static final double SAME_SIDE_TILES = 2.5;

  private final TileComparison agreement;
  private final CandidateLooks looks;
  private final int columns;
  private final OfBoth<float[]> block;
  private final BlockEnds ends;

  ChangeNamer(CandidateLooks looks) {
    this.looks = looks;
    this.agreement = looks.agreement;
    this.columns = agreement.tiles.columns;
    this.block = looks.block;
    this.ends = new BlockEnds(agreement, block);
  }

  /** One place, or several where different changes run together. */
  List<ChangeCandidate> places(TileSet part, int leastTiles) {
    boolean[][] kinds = kinds(part);
    double n = part.count();
    int[] counts = new int[4];
    int most = 0;
    for (int k = 0; k < 4; k++) {
      for (boolean b : kinds[k]) {
        counts[k] += b ? 1 : 0;
      }
      most = Math.max(most, counts[k]);
    }
    TileSet a = extent(part, true);
    TileSet b = extent(part, false);
    if (a.count() > 0 && b.count() > 0 && covered(part, a, b)) {
      Optional<ChangeCandidate> moved = moved(a, b);
      if (moved.isPresent()) {
        return List.of(moved.get());
      }
      boolean boxes = a.fill() >= BOX && b.fill() >= BOX;
      int kept = sidesKept(a, b);
      if (boxes && kept == 4) {
        return List.of(named(part));
      }
      boolean sure =
          TileLooks.mean(block.first(), a.mask()) > SURELY_BLOCK
              && TileLooks.mean(block.second(), b.mask()) > SURELY_BLOCK;
      if (boxes && kept >= 2 && sure && resized(a, b)) {
        return List.of(
            new ChangeCandidate(
                ChangeKind.RESIZED,
                looks.blockClass(a, true),
                looks.blockClass(b, false),
                a,
                b,
                null));
      }
    }
    if (most >= ONE_KIND * n) {
      return List.of(named(part));
    }
    List<ChangeCandidate> out = new ArrayList<>();
    for (int kind = 0; kind < 4; kind++) {
      boolean[] k = kinds[kind];
      // The rim of a block is no change of the logic around it.
      boolean[] open = TileSet.opened(k, columns, kind == 0 ? RIM_TILES : 1);
      for (int i = 0; i < open.length; i++) {
        open[i] &= k[i];
      }
      for (TileSet t : TileSet.parts(open, columns)) {
        int shorter = Math.min(t.right() - t.left(), t.bottom() - t.top());
        if (t.count() >= leastTiles && shorter >= LEAST_SIDE) {
          out.add(named(t));
        }
      }
    }
    return out.isEmpty() ? List.of(named(part)) : out;
  }

  /** Whether two blocks are all that a place is. */
  private boolean covered(TileSet part, TileSet a, TileSet b) {
    boolean[] in = TileSet.grown(a.with(b).mask(), columns, 2);
    int out = 0;
    for (int i = 0; i < in.length; i++) {
      out += part.mask()[i] && !in[i] ? 1 : 0;
    }
    return out < LEAST_SHARE * part.count();
  }

  /** Whether two blocks share a corner and most of the smaller one's ground. */
  private boolean resized(TileSet a, TileSet b) {
    boolean across = same(a.left(), b.left()) || same(a.right(), b.right());
    boolean down = same(a.top(), b.top()) || same(a.bottom(), b.bottom());
    boolean[] rest = new boolean[a.mask().length];
    boolean grew = b.count() > a.count();
    TileSet less = grew ? a : b;
    for (int i = 0; i < rest.length; i++) {
      rest[i] = (grew ? b : a).mask()[i] && !less.mask()[i];
    }
    float[] odds = block.of(grew);
    boolean clear = TileLooks.mean(odds, less.mask()) - TileLooks.mean(odds, rest) > CLEARLY_LESS;
    return across && down && clear && wide(a) && wide(b);
  }

  private static boolean wide(TileSet t) {
    return Math.min(t.right() - t.left(), t.bottom() - t.top()) > LEAST_SIDE + 1;
  }

  private static boolean same(int side, int other) {
    return Math.abs(side - other) <= SAME_SIDE_TILES;
  }

  /** What is gone or new beside other content of the same block is a block that was resized. */
  List<ChangeCandidate> joined(List<ChangeCandidate> places) {
    List<ChangeCandidate> out = new ArrayList<>(places);
    for (ChangeCandidate p : places) {
      if (p.kind() == ChangeKind.GONE || p.kind() == ChangeKind.NEW) {
        TileSet end = p.tiles();
        for (ChangeCandidate q : places) {
          boolean content = q.kind() == ChangeKind.TEXTURE || q.kind() == ChangeKind.CLASS;
          if (content
              && wide(q.inA())
              && out.contains(q)
              && out.contains(p)
              && looks.isBlock(q.inA(), true)) {
            TileSet whole = end.with(q.inA());
            boolean alike = ends.alike(end.mask(), q.inA().mask(), p.inA() != null);
            if (alike && (whole.fill() >= BOX || beside(end, q.inA()))) {
              out.remove(p);
              out.remove(q);
              TileSet a = p.inA() != null ? whole : q.inA();
              TileSet b = p.inA() != null ? q.inA() : whole;
              out.add(
                  new ChangeCandidate(
                      ChangeKind.RESIZED,
                      looks.blockClass(a, true),
                      looks.blockClass(b, false),
                      a,
                      b,
                      null));
            }
          }
        }
      }
    }
    return out;
  }

  /** What is gone or new as a piece of a block that goes on is a block that was resized. */
  List<ChangeCandidate> pieces(List<ChangeCandidate> places) {
    List<ChangeCandidate> out = new ArrayList<>();
    for (ChangeCandidate p : places) {
      boolean gone = p.kind() == ChangeKind.GONE;
      TileSet at = gone ? p.inA() : p.inB();
      boolean piece = (gone || p.kind() == ChangeKind.NEW) && ends.continues(at, gone);
      out.add(
          piece
              ? new ChangeCandidate(ChangeKind.RESIZED, p.classA(), p.classB(), at, at, null)
              : p);
    }
    return out;
  }

  /** Whether two boxes share a whole side. */
  private static boolean beside(TileSet p, TileSet q) {
    int across = Math.max(p.left(), q.left()) - Math.min(p.right(), q.right());
    int down = Math.max(p.top(), q.top()) - Math.min(p.bottom(), q.bottom());
    boolean rows = same(p.top(), q.top()) && same(p.bottom(), q.bottom());
    boolean columns = same(p.left(), q.left()) && same(p.right(), q.right());
    return rows && across >= -3 && across <= 3 || columns && down >= -3 && down <= 3;
  }

  /** Whether a block left the ground it had and came to ground that was none: else only lattice. */
  boolean leaves(TileSet a, TileSet b) {
    return MovedGround.leaves(a, b, block, columns);
  }

  /** Whether the changed block around a place is, shifted, the changed block around another. */
  boolean sameBlock(TileSet a, TileSet b, int dx, int dy) {
    TileSet x = around(a, true);
    TileSet y = around(b, false);
    return Math.abs(x.left() + dx - y.left()) <= SAME_SIZE_TILES
        && Math.abs(x.right() + dx - y.right()) <= SAME_SIZE_TILES
        && Math.abs(x.top() + dy - y.top()) <= SAME_SIZE_TILES
        && Math.abs(x.bottom() + dy - y.bottom()) <= SAME_SIZE_TILES;
  }

  private TileSet around(TileSet part, boolean first) {
    boolean[] near = TileSet.grown(part.mask(), columns, 6);
    for (int i = 0; i < near.length; i++) {
      near[i] &=
          part.mask()[i] || agreement.state[i] != State.SAME.ordinal() && tileBlock(first, i);
    }
    return part.within(TileSet.opened(near, columns, 1));
  }

  /** What is gone and what is new of the same size and content is one block that moved. */
  List<ChangeCandidate> paired(List<ChangeCandidate> places) {
    List<ChangeCandidate> out = new ArrayList<>(places);
    for (ChangeCandidate g : places) {
      ChangeCandidate best = null;
      ChangeCandidate with = null;
      for (ChangeCandidate w : places) {
        if (g.kind() == ChangeKind.GONE && w.kind() == ChangeKind.NEW && out.contains(w)) {
          ChangeCandidate m = moved(g.inA(), w.inB()).orElse(null);
          if (m != null && (best == null || m.move().similarity() > best.move().similarity())) {
            best = m;
            with = w;
          }
        }
      }
      if (best != null) {
        out.remove(g);
        out.remove(with);
        out.add(best);
      }
    }
    return out;
  }

  /** The block at a place in one picture, with its even ground; the largest of several. */
  private TileSet extent(TileSet part, boolean first) {
    boolean[] in = part.mask().clone();
    for (int i = 0; i < in.length; i++) {
      in[i] &= tileBlock(first, i);
    }
    in = TileSet.opened(TileSet.closed(in, columns, 1), columns, 1);
    List<TileSet> parts = TileSet.parts(in, columns);
    return parts.isEmpty() ? new TileSet(columns, in) : parts.get(0);
  }

  /** Tiles of a place by block in neither, the first, the second, both. */
  private boolean[][] kinds(TileSet part) {
    boolean[][] out = new boolean[4][part.mask().length];
    for (int i = 0; i < part.mask().length; i++) {
      if (part.mask()[i]) {
        int k = (tileBlock(true, i) ? 1 : 0) + (tileBlock(false, i) ? 2 : 0);
        out[k][i] = true;
      }
    }
    return out;
  }

  private boolean tileBlock(boolean first, int tile) {
    return block.of(first)[tile] > 0;
  }

  private ChangeCandidate named(TileSet part) {
    boolean isA = looks.isBlock(part, true);
    boolean isB = looks.isBlock(part, false);
    if (isA != isB) {
      return looks.place(isA ? ChangeKind.GONE : ChangeKind.NEW, part);
    }
    boolean other =
        isA
            && !looks.inRing(part)
            && MemoryOdds.differ(
                TileLooks.mean(agreement.looks.first().memory, part.mask()),
                TileLooks.mean(agreement.looks.second().memory, part.mask()));
    return looks.place(other ? ChangeKind.CLASS : ChangeKind.TEXTURE, part);
  }

  private static int sidesKept(TileSet a, TileSet b) {
    if (a.count() == 0 || b.count() == 0) {
      return 0;
    }
    return (Math.abs(a.left() - b.left()) <= SAME_SIDE_TILES ? 1 : 0)
        + (Math.abs(a.right() - b.right()) <= SAME_SIDE_TILES ? 1 : 0)
        + (Math.abs(a.top() - b.top()) <= SAME_SIDE_TILES ? 1 : 0)
        + (Math.abs(a.bottom() - b.bottom()) <= SAME_SIDE_TILES ? 1 : 0);
  }

  /** The block of the first die if the picture finds it again at the place in the second. */
  private Optional<ChangeCandidate> moved(TileSet a, TileSet b) {
    return BlockMatch.of(agreement, a, b)
        .filter(m -> !looks.ofRing(a, b, m.similarity()))
        .map(
            m ->
                new ChangeCandidate(
                    ChangeKind.MOVED,
                    looks.blockClass(a, true),
                    looks.blockClass(b, false),
                    a,
                    b,
                    m));
  }
}
