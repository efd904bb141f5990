package org.diesurvey.comparison.tiles;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;

/**
 * Structural correlation tile by tile: sums of products over windows of three by three tiles, of
 * zero-mean structure, at any whole shift of the second raster.
 */
public final class TileCorrelator {
  private final GrayRaster a;
  private final GrayRaster b;
  public final int side;
  public final int columns;
  public final int rows;
  private final TilePhases phasesA;
  private final TilePhases phasesB;
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
    this.phasesA = new TilePhases(a, side);
    this.phasesB = new TilePhases(b, side);
    this.squaresA = windows(squares(a));
  }

  int count() {
    return columns * rows;
  }

  /** Correlation of every tile with b at (x + dx, y + dy); 0 where there is no structure. */
  float[] at(int dx, int dy) {
    return best(dx, dy, 0);
  }

  /** The best of all shifts up to {@code reach} around (dx, dy), for each tile. */
  float[] best(int dx, int dy, int reach) {
    int shifts = (2 * reach + 1) * (2 * reach + 1);
    float[][] products = new float[shifts][count()];
    float[][] squares = new float[shifts][count()];
    IntStream.range(0, rows)
        .parallel()
        .forEach(r -> rowOfTiles(r, dx, dy, reach, products, squares));
    float[] best = new float[count()];
    Arrays.fill(best, Float.NEGATIVE_INFINITY);
    IntStream.range(0, rows)
        .parallel()
        .forEach(
            r -> {
              float[] product = new float[columns];
              float[] square = new float[columns];
              for (int s = 0; s < shifts; s++) {
                window(products[s], r, product);
                window(squares[s], r, square);
                for (int c = 0; c < columns; c++) {
                  int i = r * columns + c;
                  best[i] = Math.max(best[i], coefficient(i, product[c], square[c]));
                }
              }
            });
    return best;
  }

  private float coefficient(int tile, float product, float square) {
    double d = Math.sqrt((double) squaresA[tile] * square);
    return d > 1e-6 ? (float) (product / d) : 0;
  }

  /** The best of some shifts for one tile, of sums over its window: products, then squares of b. */
  float best(int tile, float[] sums, int shifts) {
    float best = Float.NEGATIVE_INFINITY;
    for (int s = 0; s < shifts; s++) {
      best = Math.max(best, coefficient(tile, sums[s], sums[shifts + s]));
    }
    return best;
  }

  /** Products of one tile with b at (x + dx, y + dy), and squares of b there, at two places. */
  void cell(int tile, int dx, int dy, float[] out, int atProduct, int atSquare) {
    int x = tile % columns * side;
    int from = Math.max(x, -dx);
    int to = Math.min(x + side, b.width() - dx);
    int y = tile / columns * side;
    int last = Math.min(y + side, b.height() - dy);
    for (int r = Math.max(y, -dy); r < last; r++) {
      int atA = r * a.width();
      int atB = (r + dy) * b.width() + dx;
      float product = 0;
      float square = 0;
      for (int c = from; c < to; c++) {
        float v = b.array()[atB + c];
        product += v * a.array()[atA + c];
        square += v * v;
      }
      out[atProduct] += product;
      out[atSquare] += square;
    }
  }

  /** Products and squares of b of one row of tiles, at all shifts. */
  private void rowOfTiles(int r, int dx, int dy, int reach, float[][] products, float[][] squares) {
    int wide = 2 * reach + 1;
    float[] run = new float[columns];
    for (int u = 0; u < wide; u++) {
      for (int v = 0; v < wide; v++) {
        for (int y = r * side; y < (r + 1) * side; y++) {
          phasesA.products(y, phasesB, y + dy + v - reach, dx + u - reach, run);
          add(run, products[v * wide + u], r * columns);
        }
      }
      // A row of b is the same whichever row of a it is laid on.
      for (int y = r * side - reach; y < (r + 1) * side + reach; y++) {
        phasesB.squares(y + dy, dx + u - reach, run);
        for (int v = 0; v < wide; v++) {
          int own = y - v + reach;
          if (own >= r * side && own < (r + 1) * side) {
            add(run, squares[v * wide + u], r * columns);
          }
        }
      }
    }
  }

  private static void add(float[] run, float[] to, int at) {
    for (int c = 0; c < run.length; c++) {
      to[at + c] += run[c];
    }
  }

  /** Correlation of a set of tiles with b at (x + dx, y + dy), but for the strength of a. */
  public double sum(boolean[] tiles, int dx, int dy) {
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
  public float[] windows(float[] cells) {
    float[] out = new float[cells.length];
    float[] row = new float[columns];
    for (int r = 0; r < rows; r++) {
      window(cells, r, row);
      System.arraycopy(row, 0, out, r * columns, columns);
    }
    return out;
  }

  /** Sums over three by three tiles around those of a row. */
  private void window(float[] cells, int r, float[] out) {
    Arrays.fill(out, 0);
    for (int y = Math.max(0, r - 1); y <= Math.min(rows - 1, r + 1); y++) {
      for (int u = -1; u <= 1; u++) {
        int at = y * columns + u;
        for (int c = Math.max(0, -u); c < Math.min(columns, columns - u); c++) {
          out[c] += cells[at + c];
        }
      }
    }
  }

  /** Sum of squares of a picture over every tile. */
  float[] squares(GrayRaster in) {
    return each(
        (x, y, length) -> {
          float sum = 0;
          for (int i = y * in.width() + x, end = i + length; i < end; i++) {
            sum += in.array()[i] * in.array()[i];
          }
          return sum;
        });
  }

  /** Sum of squares of a picture over every window of tiles. */
  static float[] energy(TileCorrelator grid, GrayRaster in) {
    return grid.windows(grid.squares(in));
  }
}
