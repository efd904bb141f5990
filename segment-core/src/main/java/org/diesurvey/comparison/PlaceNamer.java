package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.ChangeFinder.Place;
import org.diesurvey.comparison.DifferenceMap.State;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.CrossCorrelation;

/**
 * Names a place that differs by how its ground looks in both pictures: like the die's own logic, or
 * like a block. What the surveys say gives the classes, and the ground where the die has no logic.
 */
final class PlaceNamer {
  /** Median distance from logic beyond which ground is no logic. */
  private static final float BLOCK = 0.75f;

  /** The same where the survey sees a block. */
  private static final float SURVEYED_BLOCK = 0.65f;

  /** What is a block if it lies so many times farther from logic than the other picture. */
  private static final double FAINT_BLOCK = 0.55;

  private static final double FAINT_RATIO = 1.7;

  /** A place of which this share is of one kind is not split. */
  private static final double ONE_KIND = 0.75;

  /** Share of a place that a kind of ground must have to count. */
  private static final double LEAST_SHARE = 0.15;

  /** Tiles of a block that counts though only one survey names it. */
  private static final int LARGE = 48;

  /** Tiles beside a place that must go on, and of which share. */
  private static final int DEEP = 5;

  private static final double GOES_ON = 0.6;

  /** Share of its bounding box that a block fills. */
  private static final double BOX = 0.7;

  /** Shortest side of a piece of a place, tiles: the rim of a block is no change of its own. */
  private static final int LEAST_SIDE = 4;

  /** Share of a place with blocks below which logic is their rim. */
  private static final double RIM_SHARE = 0.3;

  /** Sides closer than this, in tiles, are the same side. */
  private static final double SAME_SIDE_TILES = 2.5;

  /** Correlation of a block with itself at its new place. */
  private static final double SAME_CONTENT = 0.35;

  /** Farthest new place, um. */
  private static final double REACH_UM = 450;

  private final TileAgreement agreement;
  private final TileClasses classesA;
  private final TileClasses classesB;
  private final int columns;

  PlaceNamer(TileAgreement agreement, TileClasses classesA, TileClasses classesB) {
    this.agreement = agreement;
    this.classesA = classesA;
    this.classesB = classesB;
    this.columns = agreement.tiles.columns;
  }

  /** One place, or several where different changes run together. */
  List<Place> places(TileSet part, int leastTiles) {
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
    if (most >= ONE_KIND * n) {
      return List.of(named(part));
    }
    boolean onlyA = counts[1] >= LEAST_SHARE * n;
    boolean onlyB = counts[2] >= LEAST_SHARE * n;
    TileSet a = extent(part, true);
    TileSet b = extent(part, false);
    if (onlyA && onlyB) {
      Optional<Place> moved = moved(a, b);
      if (moved.isPresent()) {
        return List.of(moved.get());
      }
    }
    boolean boxes = a.fill() >= BOX && b.fill() >= BOX;
    int kept = sidesKept(a, b);
    if (boxes && kept == 4) {
      return List.of(named(part));
    }
    if (boxes && counts[3] >= LEAST_SHARE * n && onlyA != onlyB && kept >= 3) {
      return List.of(
          new Place(
              ChangeKind.RESIZED, blockClass(classesA, a), blockClass(classesB, b), a, b, null));
    }
    List<Place> out = new ArrayList<>();
    for (int kind = 0; kind < 4; kind++) {
      boolean[] k = kinds[kind];
      // The rim of a block is no change of the logic around it.
      int least = kind == 0 ? (int) Math.max(leastTiles, RIM_SHARE * n) : leastTiles;
      boolean[] open = TileSet.openOrClosed(k, columns, -1);
      for (int i = 0; i < open.length; i++) {
        open[i] &= k[i];
      }
      for (TileSet t : TileSet.parts(open, columns)) {
        int shorter = Math.min(t.right() - t.left(), t.bottom() - t.top());
        if (t.count() >= least && shorter >= LEAST_SIDE) {
          out.add(named(t));
        }
      }
    }
    return out.isEmpty() ? List.of(named(part)) : out;
  }

  /** What is gone and what is new of the same size and content is one block that moved. */
  List<Place> paired(List<Place> places) {
    List<Place> out = new ArrayList<>(places);
    for (Place g : places) {
      Place best = null;
      Place with = null;
      for (Place w : places) {
        if (g.kind() == ChangeKind.GONE && w.kind() == ChangeKind.NEW && out.contains(w)) {
          Place m = moved(g.inA(), w.inB()).orElse(null);
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
    boolean[] near = TileSet.grown(part.mask(), columns, 2);
    boolean[] in = new boolean[near.length];
    for (int i = 0; i < in.length; i++) {
      boolean changed = part.mask()[i] || agreement.state[i] != State.SAME.ordinal();
      in[i] = near[i] && changed && tileBlock(first, i);
    }
    in = TileSet.openOrClosed(TileSet.openOrClosed(in, columns, 1), columns, -1);
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
    boolean surveyed = TileClasses.isBlock((first ? classesA : classesB).at(tile));
    Ground ground = first ? agreement.groundA : agreement.groundB;
    Ground other = first ? agreement.groundB : agreement.groundA;
    return ground.known() && other.known()
        ? unlikeLogic(ground.at(tile), other.at(tile), surveyed)
        : surveyed;
  }

  private static boolean unlikeLogic(double distance, double other, boolean surveyed) {
    return distance > (surveyed ? SURVEYED_BLOCK : BLOCK)
        || distance > FAINT_BLOCK && distance > FAINT_RATIO * other;
  }

  private Place named(TileSet part) {
    boolean isA = isBlock(part, true);
    boolean isB = isBlock(part, false);
    Optional<DieClass> a = isA ? blockClass(classesA, part) : plainClass(classesA, part);
    Optional<DieClass> b = isB ? blockClass(classesB, part) : plainClass(classesB, part);
    if (isA && isB) {
      boolean memoryA = a.filter(DieClass.MEMORY_ARRAY::equals).isPresent();
      boolean memoryB = b.filter(DieClass.MEMORY_ARRAY::equals).isPresent();
      boolean ring =
          a.filter(DieClass.PAD_RING::equals).isPresent()
              || b.filter(DieClass.PAD_RING::equals).isPresent();
      boolean known = a.isPresent() && b.isPresent() || part.count() >= LARGE;
      boolean other = memoryA != memoryB && !ring && known;
      ChangeKind k = other ? ChangeKind.CLASS : ChangeKind.TEXTURE;
      return new Place(k, a, b, part, part, null);
    }
    if (!isA && !isB) {
      return new Place(ChangeKind.TEXTURE, a, b, part, part, null);
    }
    if (continues(part)) {
      return new Place(ChangeKind.RESIZED, a, b, part, part, null);
    }
    return isA
        ? new Place(ChangeKind.GONE, a, b, part, null, null)
        : new Place(ChangeKind.NEW, a, b, null, part, null);
  }

  /** Whether the ground looks like a block in one of the pictures. */
  boolean isBlock(TileSet part, boolean first) {
    TileClasses classes = first ? classesA : classesB;
    Ground ground = first ? agreement.groundA : agreement.groundB;
    int surveyed = 0;
    Ground opposite = first ? agreement.groundB : agreement.groundA;
    boolean known = ground.known() && opposite.known();
    float[] own = new float[part.mask().length];
    float[] other = new float[part.mask().length];
    for (int i = 0; i < own.length; i++) {
      surveyed += part.mask()[i] && TileClasses.isBlock(classes.at(i)) ? 1 : 0;
      own[i] = known ? ground.at(i) : 0;
      other[i] = known ? opposite.at(i) : 0;
    }
    boolean bySurvey = surveyed > 0.5 * part.count();
    return known
        ? unlikeLogic(
            TileAgreement.quantile(own, part.mask(), 0.5),
            TileAgreement.quantile(other, part.mask(), 0.5),
            bySurvey)
        : bySurvey;
  }

  /** What the survey calls the block; empty where it saw none. */
  private static Optional<DieClass> blockClass(TileClasses classes, TileSet part) {
    int memory = 0;
    int macro = 0;
    for (int i = 0; i < part.mask().length; i++) {
      memory += part.mask()[i] && classes.at(i) == DieClass.MEMORY_ARRAY ? 1 : 0;
      macro += part.mask()[i] && classes.at(i) == DieClass.HARD_MACRO ? 1 : 0;
    }
    if (memory + macro < LEAST_SHARE * part.count()) {
      return ChangeFinder.main(classes, part.mask()).filter(DieClass.PAD_RING::equals);
    }
    return Optional.of(memory > macro ? DieClass.MEMORY_ARRAY : DieClass.HARD_MACRO);
  }

  private static Optional<DieClass> plainClass(TileClasses classes, TileSet part) {
    Optional<DieClass> c = ChangeFinder.main(classes, part.mask());
    return c.filter(DieClass.PAD_RING::equals).isPresent() ? c : Optional.of(DieClass.LOGIC);
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

  /** Whether a block goes on beside a side of the place and ends where the place does. */
  private boolean continues(TileSet p) {
    int w = p.right() - p.left();
    int h = p.bottom() - p.top();
    if (p.fill() < 0.6) {
      return false;
    }
    int r = p.right() + 1;
    int l = p.left() - 1 - DEEP;
    int d = p.bottom() + 1;
    int u = p.top() - 1 - DEEP;
    return both(r, p.top(), DEEP, h) && flank(r, p.top(), h, true)
        || both(l, p.top(), DEEP, h) && flank(l, p.top(), h, true)
        || both(p.left(), d, w, DEEP) && flank(d, p.left(), w, false)
        || both(p.left(), u, w, DEEP) && flank(u, p.left(), w, false);
  }

  private boolean flank(int at, int from, int length, boolean besideRows) {
    return besideRows
        ? !both(at, from - 5, DEEP, 3) && !both(at, from + length + 2, DEEP, 3)
        : !both(from - 5, at, 3, DEEP) && !both(from + length + 2, at, 3, DEEP);
  }

  /** Whether a rectangle is mostly block in both pictures. */
  private boolean both(int left, int top, int w, int h) {
    int n = 0;
    for (int y = top; y < top + h; y++) {
      for (int x = left; x < left + w; x++) {
        if (x >= 0 && y >= 0 && x < columns && y < agreement.tiles.rows) {
          int i = y * columns + x;
          n += tileBlock(true, i) && tileBlock(false, i) ? 1 : 0;
        }
      }
    }
    return n >= GOES_ON * w * h;
  }

  /** The block of the first die if the picture finds it again at the place in the second. */
  private Optional<Place> moved(TileSet a, TileSet b) {
    int side = agreement.tiles.side;
    int wide = a.right() - a.left() - (b.right() - b.left());
    int high = a.bottom() - a.top() - (b.bottom() - b.top());
    double dx = (a.left() + a.right() - b.left() - b.right()) / -2.0;
    double dy = (a.top() + a.bottom() - b.top() - b.bottom()) / -2.0;
    double far = Math.hypot(dx, dy);
    if (a.count() == 0
        || b.count() == 0
        || Math.max(Math.abs(wide), Math.abs(high)) > SAME_SIDE_TILES + 1
        || far * agreement.tileUm > REACH_UM
        || far < 2) {
      return Optional.empty();
    }
    // Windows widen the place by about a tile.
    int x = (a.left() + 1) * side;
    int y = (a.top() + 1) * side;
    int w = (a.right() - a.left() - 2) * side;
    int h = (a.bottom() - a.top() - 2) * side;
    int room = 4 * side;
    int x0 = Math.max(0, x + (int) Math.round(dx * side) - room);
    int y0 = Math.max(0, y + (int) Math.round(dy * side) - room);
    int x1 = Math.min(agreement.b.width(), x + (int) Math.round(dx * side) + w + room);
    int y1 = Math.min(agreement.b.height(), y + (int) Math.round(dy * side) + h + room);
    if (w < 3 * side || h < 3 * side || x1 - x0 < w || y1 - y0 < h) {
      return Optional.empty();
    }
    GrayRaster c =
        CrossCorrelation.coefficients(
            PatchMatcher.cut(agreement.b, x0, y0, x1 - x0, y1 - y0),
            PatchMatcher.cut(agreement.a, x, y, w, h));
    float[] v = c.array();
    int best = 0;
    for (int i = 1; i < v.length; i++) {
      best = v[i] > v[best] ? i : best;
    }
    if (!(v[best] >= SAME_CONTENT)) {
      return Optional.empty();
    }
    int bx = best % c.width();
    int by = best / c.width();
    double sx = x0 + bx - x + vertex(v, best, 1, bx > 0 && bx < c.width() - 1);
    double sy = y0 + by - y + vertex(v, best, c.width(), by > 0 && by < c.height() - 1);
    return Optional.of(
        new Place(
            ChangeKind.MOVED,
            blockClass(classesA, a),
            blockClass(classesB, b),
            a,
            b,
            new MoveFinder.Move(a, sx, sy, v[best])));
  }

  /** Where the parabola through three values is highest, from the middle one. */
  private static double vertex(float[] v, int at, int step, boolean inside) {
    double bend = inside ? v[at - step] - 2.0 * v[at] + v[at + step] : 0;
    return bend < -1e-9
        ? Math.max(-0.5, Math.min(0.5, 0.5 * (v[at - step] - v[at + step]) / bend))
        : 0;
  }
}
