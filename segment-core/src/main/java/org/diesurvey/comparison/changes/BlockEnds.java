package org.diesurvey.comparison.changes;

import java.util.List;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.comparison.tiles.TileMoments;
import org.diesurvey.comparison.tiles.TileSet;

/** Whether a block goes on beyond a place: then the place is a piece of it. */
final class BlockEnds {
  /** Tiles beside a place that must go on, and of which share. */
  private static final int DEEP = 5;

  private static final double GOES_ON = 0.6;

  /** How unlike the figures of a block's own ground may be, in its spread. */
  private static final double ALIKE = 0.4;

  /** The same where the block also ends with the place. */
  private static final double ALIKE_AND_ENDS = 1;

  /** Log odds by which the border of two blocks falls below them: there is a gap. */
  private static final double SEAM = 5;

  /** Grounds are told apart no farther than this. */
  private static final double MOST_UNLIKE = 4;

  private final TileComparison agreement;
  private final int columns;
  private final OfBoth<float[]> block;

  /**
   * @param block log odds of a block in each picture
   */
  BlockEnds(TileComparison agreement, OfBoth<float[]> block) {
    this.agreement = agreement;
    this.columns = agreement.tiles.columns;
    this.block = block;
  }

  /** Tiles beside one side of a place; whether a block ends with the place along that side. */
  private record Side(int left, int top, int w, int h, boolean ends) {}

  /**
   * What lies beside one side of a place.
   *
   * @param goesOn share of ground there that is block in both pictures, 0 to 1
   * @param seam log odds by which the border falls below the inside
   * @param unlike how unlike inside and beside are, in their spread, at most 4
   * @param borderUnlike the same of the border and beside
   * @param innerUnlike the same of inside and border
   * @param ends whether the block ends with the place along that side
   */
  record Beside(
      double goesOn,
      double seam,
      double unlike,
      double borderUnlike,
      double innerUnlike,
      boolean ends) {
    /** Whether a block goes on, and ends where the place does or looks alike. */
    private boolean continues() {
      // Another block of the same kind would stand apart.
      return seam <= SEAM
          && (ends
              ? unlike < ALIKE_AND_ENDS && borderUnlike < ALIKE_AND_ENDS
              : unlike < ALIKE && innerUnlike < ALIKE);
    }
  }

  /** Whether a block goes on beside a side of the place, and ends where it does or looks alike. */
  boolean continues(TileSet p, boolean first) {
    return p.fill() >= 0.6
        && sides(p).stream()
            .anyMatch(s -> shareOfBoth(s) >= GOES_ON && measured(p, s, first).continues());
  }

  /** The side along which most of the ground is block in both pictures. */
  Beside beside(TileSet p, boolean first) {
    List<Side> sides = sides(p);
    Side best = sides.get(0);
    for (Side s : sides) {
      best = shareOfBoth(s) > shareOfBoth(best) ? s : best;
    }
    return measured(p, best, first);
  }

  private List<Side> sides(TileSet p) {
    int w = p.right() - p.left();
    int h = p.bottom() - p.top();
    int r = p.right() + 1;
    int l = p.left() - 1 - DEEP;
    int d = p.bottom() + 1;
    int u = p.top() - 1 - DEEP;
    return List.of(
        new Side(r, p.top(), DEEP, h, flank(r, p.top(), h, true)),
        new Side(l, p.top(), DEEP, h, flank(l, p.top(), h, true)),
        new Side(p.left(), d, w, DEEP, flank(d, p.left(), w, false)),
        new Side(p.left(), u, w, DEEP, flank(u, p.left(), w, false)));
  }

  private Beside measured(TileSet p, Side side, boolean first) {
    boolean[] beside = new boolean[p.mask().length];
    int bottom = Math.min(agreement.tiles.rows, side.top() + side.h());
    int right = Math.min(columns, side.left() + side.w());
    for (int y = Math.max(0, side.top()); y < bottom; y++) {
      for (int x = Math.max(0, side.left()); x < right; x++) {
        beside[y * columns + x] = true;
      }
    }
    boolean[] inside = TileSet.shrunk(p.mask(), columns, 1);
    boolean[] near = TileSet.grown(p.mask(), columns, 1);
    boolean[] border = TileSet.grown(beside, columns, 2);
    for (int i = 0; i < border.length; i++) {
      border[i] &= near[i] && !inside[i];
    }
    float[] odds = block.of(first);
    return new Beside(
        shareOfBoth(side),
        TileLooks.mean(odds, inside) - TileLooks.mean(odds, border),
        unlike(inside, beside, first),
        unlike(border, beside, first),
        unlike(inside, border, first),
        side.ends());
  }

  private double shareOfBoth(Side s) {
    return shareOfBoth(s.left(), s.top(), s.w(), s.h());
  }

  /** Whether two grounds of one picture look like one block. */
  boolean alike(boolean[] p, boolean[] q, boolean first) {
    return unlike(p, q, first) < ALIKE_AND_ENDS;
  }

  /** How unlike two grounds of one picture look, in their spread, at most 4. */
  double unlike(boolean[] p, boolean[] q, boolean first) {
    return Math.min(MOST_UNLIKE, TileMoments.unlike(agreement.evidence.figures.of(first), p, q));
  }

  private boolean flank(int at, int from, int length, boolean besideRows) {
    return besideRows
        ? !both(at, from - 5, DEEP, 3) && !both(at, from + length + 2, DEEP, 3)
        : !both(from - 5, at, 3, DEEP) && !both(from + length + 2, at, 3, DEEP);
  }

  /** Whether a rectangle is mostly block in both pictures. */
  private boolean both(int left, int top, int w, int h) {
    return shareOfBoth(left, top, w, h) >= GOES_ON;
  }

  private double shareOfBoth(int left, int top, int w, int h) {
    int n = 0;
    for (int y = top; y < top + h; y++) {
      for (int x = left; x < left + w; x++) {
        if (x >= 0 && y >= 0 && x < columns && y < agreement.tiles.rows) {
          int i = y * columns + x;
          n += block.first()[i] > 0 && block.second()[i] > 0 ? 1 : 0;
        }
      }
    }
    return n / (double) Math.max(1, w * h);
  }
}
