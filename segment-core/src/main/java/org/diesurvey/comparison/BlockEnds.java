package org.diesurvey.comparison;

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

  private final TileAgreement agreement;
  private final int columns;
  private final float[] blockA;
  private final float[] blockB;

  /**
   * @param blockA log odds of a block in the first picture
   * @param blockB the same in the second
   */
  BlockEnds(TileAgreement agreement, float[] blockA, float[] blockB) {
    this.agreement = agreement;
    this.columns = agreement.tiles.columns;
    this.blockA = blockA;
    this.blockB = blockB;
  }

  /** Whether a block goes on beside a side of the place, and ends where it does or looks alike. */
  boolean continues(TileSet p, boolean first) {
    int w = p.right() - p.left();
    int h = p.bottom() - p.top();
    if (p.fill() < 0.6) {
      return false;
    }
    int r = p.right() + 1;
    int l = p.left() - 1 - DEEP;
    int d = p.bottom() + 1;
    int u = p.top() - 1 - DEEP;
    return goesOn(p, first, r, p.top(), DEEP, h, flank(r, p.top(), h, true))
        || goesOn(p, first, l, p.top(), DEEP, h, flank(l, p.top(), h, true))
        || goesOn(p, first, p.left(), d, w, DEEP, flank(d, p.left(), w, false))
        || goesOn(p, first, p.left(), u, w, DEEP, flank(u, p.left(), w, false));
  }

  private boolean goesOn(TileSet p, boolean first, int left, int top, int w, int h, boolean ends) {
    if (!both(left, top, w, h)) {
      return false;
    }
    boolean[] beside = new boolean[p.mask().length];
    for (int y = Math.max(0, top); y < Math.min(agreement.tiles.rows, top + h); y++) {
      for (int x = Math.max(0, left); x < Math.min(columns, left + w); x++) {
        beside[y * columns + x] = true;
      }
    }
    boolean[] inside = TileSet.grown(p.mask(), columns, -1);
    // Another block of the same kind would stand apart.
    boolean[] near = TileSet.grown(p.mask(), columns, 1);
    boolean[] border = TileSet.grown(beside, columns, 2);
    for (int i = 0; i < border.length; i++) {
      border[i] &= near[i] && !inside[i];
    }
    float[] odds = first ? blockA : blockB;
    if (TileLooks.mean(odds, border) < TileLooks.mean(odds, inside) - SEAM) {
      return false;
    }
    if (ends) {
      return unlike(inside, beside, first) < ALIKE_AND_ENDS
          && unlike(border, beside, first) < ALIKE_AND_ENDS;
    }
    return unlike(inside, beside, first) < ALIKE && unlike(inside, border, first) < ALIKE;
  }

  /**
   * What lies beside the side of a place along which most of the ground is block in both pictures.
   *
   * @param goesOn share of block there, 0 to 1
   * @param seam log odds by which the border falls below the inside
   * @param unlike how unlike inside and beside are, in their spread
   * @param borderUnlike the same of the border and beside
   * @param ends whether the block ends with the place along that side
   */
  record Beside(double goesOn, double seam, double unlike, double borderUnlike, boolean ends) {}

  Beside beside(TileSet p, boolean first) {
    int w = p.right() - p.left();
    int h = p.bottom() - p.top();
    int r = p.right() + 1;
    int l = p.left() - 1 - DEEP;
    int d = p.bottom() + 1;
    int u = p.top() - 1 - DEEP;
    int[][] sides = {
      {r, p.top(), DEEP, h}, {l, p.top(), DEEP, h}, {p.left(), d, w, DEEP}, {p.left(), u, w, DEEP}
    };
    int best = 0;
    double most = -1;
    for (int k = 0; k < 4; k++) {
      double s = shareOfBoth(sides[k][0], sides[k][1], sides[k][2], sides[k][3]);
      if (s > most) {
        most = s;
        best = k;
      }
    }
    boolean[] beside = rectangle(sides[best], p.mask().length);
    boolean[] inside = TileSet.grown(p.mask(), columns, -1);
    boolean[] near = TileSet.grown(p.mask(), columns, 1);
    boolean[] border = TileSet.grown(beside, columns, 2);
    for (int i = 0; i < border.length; i++) {
      border[i] &= near[i] && !inside[i];
    }
    float[] odds = first ? blockA : blockB;
    boolean ends =
        best < 2
            ? flank(sides[best][0], p.top(), h, true)
            : flank(sides[best][1], p.left(), w, false);
    return new Beside(
        most,
        TileLooks.mean(odds, inside) - TileLooks.mean(odds, border),
        Math.min(4, unlike(inside, beside, first)),
        Math.min(4, unlike(border, beside, first)),
        ends);
  }

  private boolean[] rectangle(int[] at, int size) {
    boolean[] out = new boolean[size];
    for (int y = Math.max(0, at[1]); y < Math.min(agreement.tiles.rows, at[1] + at[3]); y++) {
      for (int x = Math.max(0, at[0]); x < Math.min(columns, at[0] + at[2]); x++) {
        out[y * columns + x] = true;
      }
    }
    return out;
  }

  private double shareOfBoth(int left, int top, int w, int h) {
    int n = 0;
    for (int y = top; y < top + h; y++) {
      for (int x = left; x < left + w; x++) {
        if (x >= 0 && y >= 0 && x < columns && y < agreement.tiles.rows) {
          int i = y * columns + x;
          n += blockA[i] > 0 && blockB[i] > 0 ? 1 : 0;
        }
      }
    }
    return n / (double) Math.max(1, w * h);
  }

  /** Whether two grounds of one picture look like one block. */
  boolean alike(boolean[] p, boolean[] q, boolean first) {
    return unlike(p, q, first) < ALIKE_AND_ENDS;
  }

  private double unlike(boolean[] p, boolean[] q, boolean first) {
    return TileMoments.unlike(
        first ? agreement.evidence.figuresA : agreement.evidence.figuresB, p, q);
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
          n += blockA[i] > 0 && blockB[i] > 0 ? 1 : 0;
        }
      }
    }
    return n >= GOES_ON * w * h;
  }
}
