package org.diesurvey.comparison.changes;

import java.util.Optional;
import org.diesurvey.comparison.registration.PatchMatcher;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileSet;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.CrossCorrelation;

/** Whether two extents in the two pictures hold one block, by its content. */
final class BlockMatch {
  /** Tiles by which both sides may differ. */
  private static final double SAME_SIZE_TILES = 3.5;

  /** Correlation of a block with itself at its new place. */
  private static final double SAME_CONTENT = 0.35;

  /** Farthest new place, um. */
  private static final double REACH_UM = 450;

  private BlockMatch() {}

  /** The block of the first die if the picture finds it again at the place in the second. */
  static Optional<MoveFinder.Move> of(TileComparison agreement, TileSet a, TileSet b) {
    int side = agreement.tiles.side;
    int wide = a.right() - a.left() - (b.right() - b.left());
    int high = a.bottom() - a.top() - (b.bottom() - b.top());
    double dx = (a.left() + a.right() - b.left() - b.right()) / -2.0;
    double dy = (a.top() + a.bottom() - b.top() - b.bottom()) / -2.0;
    double far = Math.hypot(dx, dy);
    if (a.count() == 0
        || b.count() == 0
        || Math.max(Math.abs(wide), Math.abs(high)) > SAME_SIZE_TILES
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
    int best = highest(v);
    if (!(v[best] >= SAME_CONTENT)) {
      return Optional.empty();
    }
    int bx = best % c.width();
    int by = best / c.width();
    double sx = x0 + bx - x + vertex(v, best, 1, bx > 0 && bx < c.width() - 1);
    double sy = y0 + by - y + vertex(v, best, c.width(), by > 0 && by < c.height() - 1);
    return Optional.of(new MoveFinder.Move(a, sx, sy, v[best]));
  }

  /**
   * The whole shift near another by which the bounding box of a block correlates best; null where
   * the box leaves the picture.
   *
   * @param room how far from it is searched, px
   */
  static int[] best(TileComparison agreement, TileSet block, int dx, int dy, int room) {
    int side = agreement.tiles.side;
    int x = block.left() * side;
    int y = block.top() * side;
    int w = (block.right() - block.left()) * side;
    int h = (block.bottom() - block.top()) * side;
    int x0 = x + dx - room;
    int y0 = y + dy - room;
    GrayRaster b = agreement.b;
    if (x0 < 0 || y0 < 0 || x0 + w + 2 * room > b.width() || y0 + h + 2 * room > b.height()) {
      return null;
    }
    GrayRaster c =
        CrossCorrelation.coefficients(
            PatchMatcher.cut(b, x0, y0, w + 2 * room, h + 2 * room),
            PatchMatcher.cut(agreement.a, x, y, w, h));
    float[] v = c.array();
    int best = highest(v);
    return new int[] {dx - room + best % c.width(), dy - room + best / c.width()};
  }

  /** Place of the first of the highest values. */
  static int highest(float[] v) {
    int best = 0;
    for (int i = 1; i < v.length; i++) {
      best = v[i] > v[best] ? i : best;
    }
    return best;
  }

  /** Where the parabola through three values is highest, from the middle one. */
  private static double vertex(float[] v, int at, int step, boolean inside) {
    double bend = inside ? v[at - step] - 2.0 * v[at] + v[at + step] : 0;
    return bend < -1e-9
        ? Math.max(-0.5, Math.min(0.5, 0.5 * (v[at - step] - v[at + step]) / bend))
        : 0;
  }
}
