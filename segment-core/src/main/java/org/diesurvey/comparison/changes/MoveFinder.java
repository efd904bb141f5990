package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.diesurvey.comparison.registration.PatchMatcher;
import org.diesurvey.comparison.registration.Structure;
import org.diesurvey.comparison.tiles.ClosedTiles;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.comparison.tiles.ShiftedTiles;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileCorrelator;
import org.diesurvey.comparison.tiles.TileSet;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.CrossCorrelation;

/**
 * Finds blocks at another place by the picture alone: small squares of changed ground are searched
 * in the other die; shifts on which many agree are followed tile by tile.
 */
final class MoveFinder {
  /** Largest shift that is searched, um. */
  private static final double REACH_UM = 430;

  /** Squares that are searched. */
  private static final int MOST_SEEDS = 160;

  private static final double SEED_UM = 48;

  private static final int MOST_MOVES = 10;

  /** Shifts that are tried for one block. */
  private static final int CANDIDATES = 6;

  /** Correlation of a square that was found elsewhere. */
  private static final double LEAST_SCORE = 0.55;

  /** Share of its mean correlation from which ground beside a moved block went with it. */
  private static final double AS_WELL = 0.75;

  /** By how much more a tile correlates at its new place than where it was. */
  private static final double MARGIN = 0.1;

  /** What is no wider than twice this is no part of a block, tiles; share that must remain. */
  private static final int SPUR_TILES = 2;

  private static final double MAIN_PART = 0.5;

  /** Lattices fit again within this of the true shift, um. */
  private static final double LATTICE_UM = 24;

  /** A shift below this is a local distortion, um. */
  private static final double LEAST_SHIFT_UM = 3;

  private final TileComparison agreement;
  private final double pitchUm;

  MoveFinder(TileComparison agreement, double pitchUm) {
    this.agreement = agreement;
    this.pitchUm = pitchUm;
  }

  /**
   * A block that was found elsewhere.
   *
   * @param tiles of it in the first die
   * @param dx shift, px of the raster, with parts
   * @param dy the same, y down
   * @param similarity mean correlation at the new place
   */
  record Move(TileSet tiles, double dx, double dy, double similarity) {
    double weight() {
      return tiles.count() * similarity;
    }
  }

  private record Vote(int tile, int dx, int dy, double score) {}

  List<Move> find(boolean[] wanted) {
    List<Vote> votes = votes(wanted);
    List<Move> out = new ArrayList<>();
    boolean[] taken = new boolean[wanted.length];
    for (int k = 0; k < MOST_MOVES && !votes.isEmpty(); k++) {
      // Lattices fit at many shifts; the true one carries the most ground.
      Move most = null;
      List<Vote> open = new ArrayList<>(votes);
      for (int c = 0; c < CANDIDATES; c++) {
        Vote best = strongest(open, taken);
        if (best == null) {
          break;
        }
        Move m = grown(best, open, taken, wanted);
        if (m != null && (most == null || m.weight() > most.weight())) {
          most = m;
        }
        open.removeIf(v -> near(v, best));
      }
      if (most == null) {
        break;
      }
      most = realigned(most, taken, wanted);
      out.add(most);
      boolean[] wide = TileSet.grown(most.tiles().mask(), agreement.tiles.columns, 1);
      for (int i = 0; i < taken.length; i++) {
        taken[i] |= wide[i];
      }
      votes.removeIf(v -> taken[v.tile()]);
    }
    return out;
  }

  private static boolean near(Vote a, Vote b) {
    return Math.abs(a.dx() - b.dx()) <= 2 && Math.abs(a.dy() - b.dy()) <= 2;
  }

  private static Vote strongest(List<Vote> votes, boolean[] taken) {
    Vote best = null;
    double most = 1.2;
    for (Vote v : votes) {
      double sum = 0;
      for (Vote w : votes) {
        if (near(v, w) && !taken[w.tile()]) {
          sum += w.score();
        }
      }
      if (sum > most) {
        most = sum;
        best = v;
      }
    }
    return best;
  }

  private List<Vote> votes(boolean[] wanted) {
    int by = Math.max(1, (int) Math.round(2.2 / pitchUm));
    GrayRaster a = Structure.reduced(agreement.a, by);
    GrayRaster b = Structure.reduced(agreement.b, by);
    int side = agreement.tiles.side;
    int columns = agreement.tiles.columns;
    List<Integer> seeds = new ArrayList<>();
    int step = 3;
    do {
      seeds.clear();
      for (int i = 0; i < wanted.length; i++) {
        if (wanted[i] && i % columns % step == 0 && i / columns % step == 0) {
          seeds.add(i);
        }
      }
      step++;
    } while (seeds.size() > MOST_SEEDS);
    int square = (int) Math.round(SEED_UM / pitchUm / by);
    int reach = (int) Math.round(REACH_UM / pitchUm / by);
    List<List<Vote>> found =
        IntStream.range(0, seeds.size())
            .parallel()
            .mapToObj(
                i -> {
                  int t = seeds.get(i);
                  int x = (int) ((t % columns + 0.5) * side / by);
                  int y = (int) ((t / columns + 0.5) * side / by);
                  return search(a, b, t, x, y, square, reach, by);
                })
            .toList();
    List<Vote> out = new ArrayList<>();
    found.stream().filter(Objects::nonNull).forEach(out::addAll);
    return out;
  }

  private static List<Vote> search(
      GrayRaster a, GrayRaster b, int tile, int x, int y, int square, int reach, int by) {
    int half = square / 2;
    if (x < half || y < half || x + half >= a.width() || y + half >= a.height()) {
      return null;
    }
    GrayRaster what = PatchMatcher.cut(a, x - half, y - half, square, square);
    int x0 = Math.max(0, x - half - reach);
    int y0 = Math.max(0, y - half - reach);
    int x1 = Math.min(b.width(), x - half + square + reach);
    int y1 = Math.min(b.height(), y - half + square + reach);
    GrayRaster where = PatchMatcher.cut(b, x0, y0, x1 - x0, y1 - y0);
    GrayRaster c = CrossCorrelation.coefficients(where, what);
    float[] v = c.array();
    List<Vote> out = new ArrayList<>();
    for (int k = 0; k < 3; k++) {
      int best = BlockMatch.highest(v);
      if (!(v[best] >= LEAST_SCORE)) {
        break;
      }
      int bx = best % c.width();
      int by0 = best / c.width();
      out.add(new Vote(tile, (x0 + bx - x + half) * by, (y0 + by0 - y + half) * by, v[best]));
      for (int yy = Math.max(0, by0 - 2); yy <= Math.min(c.height() - 1, by0 + 2); yy++) {
        for (int xx = Math.max(0, bx - 2); xx <= Math.min(c.width() - 1, bx + 2); xx++) {
          v[yy * c.width() + xx] = -1;
        }
      }
    }
    return out;
  }

  /** The tiles around the voters that are found at the shift. */
  private Move grown(Vote at, List<Vote> votes, boolean[] taken, boolean[] wanted) {
    if (Math.hypot(at.dx(), at.dy()) * pitchUm < LEAST_SHIFT_UM) {
      return null;
    }
    int reach = Math.max(1, (int) Math.ceil(2.2 / pitchUm));
    boolean[] voters = new boolean[wanted.length];
    for (Vote v : votes) {
      voters[v.tile()] |= near(v, at);
    }
    return grown(voters, refined(at, votes, reach), taken, wanted);
  }

  /**
   * The block at the shift by which it fits best as a whole: a lattice fits at many, a few cells
   * apart.
   */
  Move realigned(Move move, boolean[] taken, boolean[] wanted) {
    int x = (int) Math.round(move.dx());
    int y = (int) Math.round(move.dy());
    int room = (int) Math.ceil(LATTICE_UM / pitchUm);
    int[] best = BlockMatch.best(agreement, move.tiles(), x, y, room);
    if (best == null || Math.abs(best[0] - x) <= 2 && Math.abs(best[1] - y) <= 2) {
      return move;
    }
    Move other = grown(move.tiles().mask(), best, taken, wanted);
    return other != null && other.weight() > move.weight() ? other : move;
  }

  private Move grown(boolean[] voters, int[] exact, boolean[] taken, boolean[] wanted) {
    TileCorrelator tiles = agreement.tiles;
    ShiftedTiles there = new ShiftedTiles(tiles, exact[0], exact[1]);
    // Even ground inside a block may agree with itself unshifted; holes are closed.
    ClosedTiles found =
        new ClosedTiles(tiles.columns, tiles.rows, i -> !taken[i] && isFound(i, there));
    for (TileSet part : found.parts(voters)) {
      if (part.count() < 12) {
        break;
      }
      if (carried(part, exact, wanted)) {
        // With the ground beside it that fits as well unshifted: a lattice fits itself.
        double least = AS_WELL * mean(there, part.mask());
        List<TileSet> wider =
            new ClosedTiles(
                    tiles.columns,
                    tiles.rows,
                    i -> !taken[i] && fits(i, there) && (part.mask()[i] || there.at(i) >= least))
                .parts(part.mask());
        TileSet whole = wider.isEmpty() ? part : wider.get(0);
        TileSet block = withoutSpurs(carried(whole, exact, wanted) ? whole : part);
        double[] shift = exactly(block.mask(), exact[0], exact[1]);
        return new Move(block, shift[0], shift[1], mean(there, block.mask()));
      }
    }
    return null;
  }

  /** Rows of logic beside a block may fit by chance, a few tiles at a time. */
  private TileSet withoutSpurs(TileSet block) {
    boolean[] opened = TileSet.opened(block.mask(), agreement.tiles.columns, SPUR_TILES);
    List<TileSet> parts = TileSet.parts(opened, agreement.tiles.columns);
    return parts.isEmpty() || parts.get(0).count() < MAIN_PART * block.count()
        ? block
        : parts.get(0);
  }

  private static double mean(ShiftedTiles there, boolean[] of) {
    double sum = 0;
    int n = 0;
    for (int i = 0; i < of.length; i++) {
      if (of[i]) {
        sum += there.at(i);
        n++;
      }
    }
    return sum / Math.max(1, n);
  }

  private boolean fits(int i, ShiftedTiles there) {
    return agreement.state[i] != State.NOT_COMMON.ordinal()
        && there.at(i) >= 0.42 * agreement.typical;
  }

  private boolean isFound(int i, ShiftedTiles there) {
    // It must fit better than where it was, as rows of logic fit each other.
    double floor = agreement.similarity[i] + MARGIN;
    // No correlation is above 1, but for rounding.
    return floor < 1.001 && fits(i, there) && there.at(i) > floor;
  }

  /** Whether the ground has changed, here and where it is found again. */
  private boolean carried(TileSet part, int[] shift, boolean[] wanted) {
    int changed = 0;
    for (int i = 0; i < wanted.length; i++) {
      changed += part.mask()[i] && wanted[i] ? 1 : 0;
    }
    return changed >= 0.4 * part.count() && lands(part, shift, wanted);
  }

  /**
   * Whether the ground at the new place has changed: else a copy of the block always stood there.
   */
  private boolean lands(TileSet part, int[] shift, boolean[] wanted) {
    double side = agreement.tiles.side;
    TileSet there =
        new TileSet(
            agreement.tiles.columns,
            part.shifted((int) Math.round(shift[0] / side), (int) Math.round(shift[1] / side)));
    int changed = 0;
    for (int i = 0; i < wanted.length; i++) {
      changed += there.mask()[i] && wanted[i] ? 1 : 0;
    }
    return there.count() > 0.8 * part.count() && changed >= 0.4 * there.count();
  }

  private int[] refined(Vote at, List<Vote> votes, int reach) {
    boolean[] voters = new boolean[agreement.state.length];
    for (Vote v : votes) {
      if (near(v, at)) {
        voters[v.tile()] = true;
      }
    }
    boolean[] around = TileSet.grown(voters, agreement.tiles.columns, 2);
    int[] best = {at.dx(), at.dy()};
    double most = Double.NEGATIVE_INFINITY;
    for (int v = -reach; v <= reach; v++) {
      for (int u = -reach; u <= reach; u++) {
        double s = agreement.tiles.sum(around, at.dx() + u, at.dy() + v);
        if (s > most) {
          most = s;
          best = new int[] {at.dx() + u, at.dy() + v};
        }
      }
    }
    return best;
  }

  /** To parts of a pixel, by parabolas through the sums over the whole block. */
  private double[] exactly(boolean[] block, int dx, int dy) {
    int x = dx;
    int y = dy;
    for (int k = 0; k < 4; k++) {
      double at = agreement.tiles.sum(block, x, y);
      double left = agreement.tiles.sum(block, x - 1, y);
      double right = agreement.tiles.sum(block, x + 1, y);
      double up = agreement.tiles.sum(block, x, y - 1);
      double down = agreement.tiles.sum(block, x, y + 1);
      double top = Math.max(Math.max(left, right), Math.max(up, down));
      if (top <= at || k == 3) {
        return new double[] {x + part(left, at, right), y + part(up, at, down)};
      }
      x += left == top ? -1 : right == top ? 1 : 0;
      y += up == top ? -1 : down == top ? 1 : 0;
    }
    return new double[] {x, y};
  }

  private static double part(double before, double at, double after) {
    double bend = before - 2 * at + after;
    return bend < -1e-9 ? Math.max(-0.5, Math.min(0.5, 0.5 * (before - after) / bend)) : 0;
  }
}
