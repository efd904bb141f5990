package org.diesurvey.comparison;

import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;

/**
 * Structural correlation tile by tile: sums of products over windows of three by three tiles, of
 * zero-mean structure, at any whole shift of the second raster.
 */
final class TileCorrelator {
  private final GrayRaster a;
  private final GrayRaster b;
  final int side;
  final int columns;
  final int rows;
  private final float[] squaresA;

  /**
   * @param a structure of the first die
   * @param b structure of the second on the same raster
   * @param side of a tile, px
   */
  TileCorrelator(GrayRaster a, GrayRaster b, int side) {
    this.a = a;
    this.b = b;
    this.side = side;
    this.columns = a.width() / side;
    this.rows = a.height() / side;
    this.squaresA = windows(cells(a, a, 0, 0));
  }

  int count() {
    return columns * rows;
  }

  /** Correlation of every tile with b at (x + dx, y + dy); 0 where there is no structure. */
  float[] at(int dx, int dy) {
    float[] products = windows(cells(a, b, dx, dy));
    float[] squaresB = windows(squares(b, dx, dy));
    float[] out = new float[products.length];
    for (int i = 0; i < out.length; i++) {
      double d = Math.sqrt((double) squaresA[i] * squaresB[i]);
      out[i] = d > 1e-6 ? (float) (products[i] / d) : 0;
    }
    return out;
  }

  /** The best of all shifts up to {@code reach} around (dx, dy), for each tile. */
  float[] best(int dx, int dy, int reach) {
    float[] best = at(dx, dy);
    for (int v = -reach; v <= reach; v++) {
      for (int u = -reach; u <= reach; u++) {
        if (u != 0 || v != 0) {
          float[] c = at(dx + u, dy + v);
          for (int i = 0; i < best.length; i++) {
            best[i] = Math.max(best[i], c[i]);
          }
        }
      }
    }
    return best;
  }

  /** Correlation of a set of tiles with b at (x + dx, y + dy), but for the strength of a. */
  double sum(boolean[] tiles, int dx, int dy) {
    double sum = 0;
    double square = 0;
    for (int i = 0; i < tiles.length; i++) {
      if (tiles[i]) {
        int x = i % columns * side;
        int from = Math.max(x, -dx);
        int to = Math.min(x + side, b.width() - dx);
        int y = i / columns * side;
        int last = Math.min(y + side, b.height() - dy);
        for (int r = Math.max(y, -dy); r < last; r++) {
          int atA = r * a.width();
          int atB = (r + dy) * b.width() + dx;
          float product = 0;
          float own = 0;
          for (int c = from; c < to; c++) {
            float v = b.array()[atB + c];
            product += a.array()[atA + c] * v;
            own += v * v;
          }
          sum += product;
          square += own;
        }
      }
    }
    return square > 0 ? sum / Math.sqrt(square) : 0;
  }

  private float[] squares(GrayRaster in, int dx, int dy) {
    return sums(in, in, dx, dy, dx, dy);
  }

  private float[] cells(GrayRaster first, GrayRaster second, int dx, int dy) {
    return sums(first, second, 0, 0, dx, dy);
  }

  /** Sum of a picture over every tile. */
  float[] sums(GrayRaster in) {
    return each(
        (x, y, length) -> {
          float sum = 0;
          for (int i = y * in.width() + x, end = i + length; i < end; i++) {
            sum += in.array()[i];
          }
          return sum;
        });
  }

  /** Products of one raster, shifted, with another, shifted; 0 beyond the edges of either. */
  private float[] sums(GrayRaster p, GrayRaster q, int px, int py, int qx, int qy) {
    return each(
        (x, y, length) -> {
          if (y + py < 0 || y + py >= p.height() || y + qy < 0 || y + qy >= q.height()) {
            return 0;
          }
          int from = Math.max(x, Math.max(-px, -qx));
          int to = Math.min(x + length, Math.min(p.width() - px, q.width() - qx));
          int atP = (y + py) * p.width() + px;
          int atQ = (y + qy) * q.width() + qx;
          float sum = 0;
          for (int i = from; i < to; i++) {
            sum += q.array()[atQ + i] * p.array()[atP + i];
          }
          return sum;
        });
  }

  /** A sum over a part of a row. */
  private interface Run {
    float sum(int x, int y, int length);
  }

  private float[] each(Run run) {
    float[] out = new float[count()];
    IntStream.range(0, rows)
        .parallel()
        .forEach(
            r -> {
              for (int y = r * side; y < (r + 1) * side; y++) {
                for (int c = 0; c < columns; c++) {
                  out[r * columns + c] += run.sum(c * side, y, side);
                }
              }
            });
    return out;
  }

  /** Sums over three by three tiles. */
  float[] windows(float[] cells) {
    float[] out = new float[cells.length];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        float sum = 0;
        for (int y = Math.max(0, r - 1); y <= Math.min(rows - 1, r + 1); y++) {
          for (int x = Math.max(0, c - 1); x <= Math.min(columns - 1, c + 1); x++) {
            sum += cells[y * columns + x];
          }
        }
        out[r * columns + c] = sum;
      }
    }
    return out;
  }

  /** Sum of squares of a picture over every tile. */
  float[] squares(GrayRaster in) {
    return squares(in, 0, 0);
  }

  /** Sum of squares of a picture over every window of tiles. */
  static float[] energy(TileCorrelator grid, GrayRaster in) {
    return grid.windows(grid.squares(in));
  }
}
