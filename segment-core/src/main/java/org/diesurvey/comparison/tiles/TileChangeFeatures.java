package org.diesurvey.comparison.tiles;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.Structure;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/**
 * Figures of every tile that tell changed from unchanged ground. Each is put against what the pair
 * itself shows on like ground, since most of a revision is unchanged: correlations in three bands
 * and along both axes against a regression on grey, contrasts and noise; greys and contrasts of one
 * picture against those of the other.
 */
public final class TileChangeFeatures {
  /** Figures of a tile. */
  static final int SIZE = 24;

  /** Share of the ground that is left out when expectations are fitted. */
  private static final double LEFT_OUT = 0.12;

  private static final int ROUNDS = 4;

  /** Energy over noise from which a tile shows something. */
  private static final double CLEAR = 4;

  private final TileCorrelator tiles;
  private final boolean[] use;

  /** Correlations: fine, differences along x, along y, middle, coarse. */
  public final float[][] correlation = new float[5][];

  /** Log of energy over noise: three bands, first and second picture each. */
  public final float[][] clearness = new float[6][];

  /** Tiles that by themselves show more than noise in one of the pictures. */
  public final boolean[] structured;

  /** Grey and contrasts of every tile of both pictures, see {@link LogicDistance}. */
  public final OfBoth<double[][]> figures;

  public final double[] typical = new double[5];
  public final float[][] rows;

  /**
   * @param tiles grid with fine structure of both pictures
   * @param both the two pictures, equally sharp
   * @param fineBands the finest contrasts of both
   * @param figures of the tiles of both, see {@link LogicDistance#figures}
   * @param pitchUm of both
   * @param seen tiles that both show
   * @param use tiles of those that neither hide nor lie at the rim
   */
  TileChangeFeatures(
      TileCorrelator tiles,
      GrayRaster[] both,
      GrayRaster[] fineBands,
      double[][][] figures,
      double pitchUm,
      boolean[] seen,
      boolean[] use,
      OfBoth<TileLooks> looks) {
    this.tiles = tiles;
    this.use = use;
    double[] fine = {
      Math.max(0.7, 0.8 / pitchUm), Math.max(1.5, 2.5 / pitchUm), Math.max(3, 6 / pitchUm)
    };
    double[] wide = {
      Math.max(3, 6 / pitchUm), Math.max(5, 10 / pitchUm), Math.max(10, 20 / pitchUm)
    };
    double[] window = {16 / pitchUm, 24 / pitchUm, 48 / pitchUm};
    int[] at = {0, 3, 4};
    this.structured = new boolean[tiles.count()];
    for (int k = 0; k < 3; k++) {
      int band = k;
      GrayRaster[] bands =
          k == 0 ? fineBands : Structure.each(r -> Structure.band(r, fine[band], wide[band]), both);
      GrayRaster x = bands[0];
      GrayRaster y = bands[1];
      float[] energyA = TileCorrelator.energy(tiles, x);
      float[] energyB = TileCorrelator.energy(tiles, y);
      float[] ownA = k < 2 ? tiles.squares(x) : null;
      float[] ownB = k < 2 ? tiles.squares(y) : null;
      correlation[at[k]] =
          k == 0
              ? tiles.best(0, 0, 1)
              : correlation(Structure.each(r -> Structure.even(r, window[band]), bands), k);
      if (k < 2) {
        structured(ownA, energyA, correlation[at[k]], seen);
        structured(ownB, energyB, correlation[at[k]], seen);
      }
      clearness[2 * k] = clearness(energyA, correlation[at[k]], seen);
      clearness[2 * k + 1] = clearness(energyB, correlation[at[k]], seen);
    }
    GrayRaster[] soft = Structure.each(r -> ImageFilters.gaussian(r, fine[0]), both);
    for (int k = 0; k < 2; k++) {
      int axis = k;
      correlation[1 + k] =
          correlation(
              Structure.each(
                  r -> Structure.even(Structure.differences(r, 1 - axis, axis), window[0]), soft),
              1);
    }
    for (int k = 0; k < 5; k++) {
      typical[k] = Math.max(0.05, TileComparison.quantile(correlation[k], use, 0.6));
    }
    this.figures = new OfBoth<>(figures[0], figures[1]).map(LogicDistance::withLogOfGrey);
    this.rows = new float[tiles.count()][SIZE];
    shares();
    write(11, logOf(unlike(this.figures.first(), this.figures.second())));
    write(12, logOf(unlike(this.figures.second(), this.figures.first())));
    expected();
    byClass(looks);
  }

  private void write(int column, float[] values) {
    for (int i = 0; i < values.length; i++) {
      rows[i][column] = values[i];
    }
  }

  /** Log of energy over noise, which is what does not agree where least disagrees. */
  private static float[] clearness(float[] energy, float[] correlation, boolean[] seen) {
    double noise = noise(energy, correlation, seen);
    float[] out = new float[energy.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) Math.log((energy[i] + 1e-12) / (noise + 1e-12));
    }
    return out;
  }

  private static double noise(float[] energy, float[] correlation, boolean[] seen) {
    float[] v = new float[energy.length];
    for (int i = 0; i < v.length; i++) {
      v[i] = energy[i] * (1 - Math.max(0, correlation[i]));
    }
    return TileComparison.quantile(v, seen, 0.25);
  }

  /** Correlation of two rasters of structure, the best of shifts up to a reach. */
  private float[] correlation(GrayRaster[] of, int reach) {
    return new TileCorrelator(of[0], of[1], tiles.side).best(0, 0, reach);
  }

  /** Marks tiles whose own energy is above noise. */
  private void structured(float[] own, float[] energy, float[] correlation, boolean[] seen) {
    // A window holds nine tiles.
    double least = CLEAR * noise(energy, correlation, seen) / 9;
    for (int i = 0; i < own.length; i++) {
      structured[i] |= own[i] > least;
    }
  }

  private void shares() {
    for (int i = 0; i < rows.length; i++) {
      for (int k = 0; k < 5; k++) {
        rows[i][k] = held(correlation[k][i] / typical[k], -0.3, 1.2);
      }
      for (int k = 0; k < 3; k++) {
        float x = clearness[2 * k][i];
        float y = clearness[2 * k + 1][i];
        rows[i][5 + 2 * k] = held(Math.min(x, y), -2, 6) / 3;
        rows[i][6 + 2 * k] = held(Math.max(x, y), -2, 6) / 3;
      }
    }
  }

  private static float held(double v, double low, double high) {
    return (float) Math.max(low, Math.min(high, v));
  }

  private static float[] logOf(float[] v) {
    float[] out = new float[v.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) Math.log(v[i] + 0.3);
    }
    return out;
  }

  /** Mahalanobis distance of what one picture shows from what the other lets expect. */
  private float[] unlike(double[][] x, double[][] y) {
    int size = x[0].length;
    boolean[] kept = use.clone();
    for (int i = 0; i < kept.length; i++) {
      kept[i] &= correlation[0][i] > 0.6 * typical[0];
    }
    boolean[] start = kept.clone();
    float[] out = new float[x.length];
    for (int round = 0; round < ROUNDS; round++) {
      double[] meanX = TileMoments.mean(x, kept);
      double[] meanY = TileMoments.mean(y, kept);
      RealMatrix own = TileMoments.ridged(TileMoments.products(x, meanX, x, meanX, kept), 1e-4);
      RealMatrix map =
          new CholeskyDecomposition(own)
              .getSolver()
              .solve(TileMoments.products(x, meanX, y, meanY, kept));
      double[][] left = new double[x.length][size];
      double[] zero = new double[size];
      IntStream.range(0, x.length)
          .parallel()
          .forEach(
              i -> {
                for (int k = 0; k < size; k++) {
                  double v = y[i][k] - meanY[k];
                  for (int l = 0; l < size; l++) {
                    v -= (x[i][l] - meanX[l]) * map.getEntry(l, k);
                  }
                  left[i][k] = v;
                }
              });
      for (int again = 0; again < (round == ROUNDS - 1 ? 2 : 1); again++) {
        double[][] inverse =
            MatrixUtils.inverse(
                    TileMoments.ridged(TileMoments.products(left, zero, left, zero, kept), 1e-4))
                .getData();
        IntStream.range(0, x.length)
            .parallel()
            .forEach(
                i -> {
                  double sum = 0;
                  for (int k = 0; k < size; k++) {
                    for (int l = 0; l < size; l++) {
                      sum += left[i][k] * inverse[k][l] * left[i][l];
                    }
                  }
                  out[i] = (float) Math.sqrt(Math.max(0, sum) / size);
                });
        float limit = (float) TileComparison.quantile(out, start, 0.9);
        for (int i = 0; i < kept.length; i++) {
          kept[i] = start[i] && out[i] <= limit;
        }
      }
    }
    return out;
  }

  /** Correlations against what like ground of this pair reaches, in its robust deviations. */
  private void expected() {
    int own = figures.first()[0].length;
    int size = 2 * own + 6;
    double[][] x = new double[rows.length][size];
    for (int i = 0; i < x.length; i++) {
      System.arraycopy(figures.first()[i], 0, x[i], 0, own);
      System.arraycopy(figures.second()[i], 0, x[i], own, own);
      for (int k = 0; k < 3; k++) {
        double s = held(Math.min(clearness[2 * k][i], clearness[2 * k + 1][i]), -3, 6);
        x[i][2 * own + k] = s;
        x[i][2 * own + 3 + k] = s * s;
      }
    }
    double[] mean = TileMoments.mean(x, use);
    double[] spread = new double[size];
    RealMatrix all = TileMoments.products(x, mean, x, mean, use);
    for (int k = 0; k < size; k++) {
      spread[k] = Math.sqrt(all.getEntry(k, k)) + 1e-6;
    }
    double[][] one = new double[x.length][size + 1];
    for (int i = 0; i < x.length; i++) {
      one[i][size] = 1;
      for (int k = 0; k < size; k++) {
        one[i][k] = held((x[i][k] - mean[k]) / spread[k], -4, 4);
      }
    }
    IntStream.range(0, 5).parallel().forEach(k -> write(13 + k, deviation(one, correlation[k])));
    for (float[] r : rows) {
      r[23] = Math.min(r[14], r[15]);
    }
  }

  private float[] deviation(double[][] x, float[] of) {
    int n = x.length;
    int size = x[0].length;
    float[] left = new float[n];
    boolean[] kept = use.clone();
    for (int round = 0; round < ROUNDS; round++) {
      double[][] squares = new double[size][size];
      double[] with = new double[size];
      for (int i = 0; i < n; i++) {
        if (kept[i]) {
          double y = steep(of[i]);
          for (int k = 0; k < size; k++) {
            with[k] += x[i][k] * y;
            for (int l = 0; l <= k; l++) {
              squares[k][l] += x[i][k] * x[i][l];
            }
          }
        }
      }
      for (int k = 0; k < size; k++) {
        for (int l = 0; l < k; l++) {
          squares[l][k] = squares[k][l];
        }
      }
      RealVector fit =
          new CholeskyDecomposition(
                  TileMoments.ridged(new Array2DRowRealMatrix(squares, false), 0.1))
              .getSolver()
              .solve(MatrixUtils.createRealVector(with));
      double[] f = fit.toArray();
      for (int i = 0; i < n; i++) {
        double v = steep(of[i]);
        for (int k = 0; k < size; k++) {
          v -= x[i][k] * f[k];
        }
        left[i] = (float) v;
      }
      float limit = (float) TileComparison.quantile(left, use, LEFT_OUT);
      for (int i = 0; i < n; i++) {
        kept[i] = use[i] && left[i] > limit;
      }
    }
    float middle = (float) TileComparison.quantile(left, kept, 0.5);
    float[] off = new float[n];
    for (int i = 0; i < n; i++) {
      off[i] = Math.abs(left[i] - middle);
    }
    // 1.48 median deviations are one standard deviation of a normal distribution.
    double spread = 1.48 * TileComparison.quantile(off, kept, 0.5) + 0.03;
    for (int i = 0; i < n; i++) {
      left[i] = held((left[i] - middle) / spread, -12, 4);
    }
    return left;
  }

  /** Inverse hyperbolic tangent: evens the spread of correlations (Fisher 1915, from memory). */
  private static double steep(float correlation) {
    double c = Math.max(-0.5, Math.min(0.995, correlation));
    return 0.5 * Math.log((1 + c) / (1 - c));
  }

  /** Correlation along each axis over what the class of ground typically reaches. */
  private void byClass(OfBoth<TileLooks> looks) {
    SurfaceClass[] joint = new SurfaceClass[rows.length];
    for (int i = 0; i < joint.length; i++) {
      joint[i] = TileLooks.joint(looks, i);
    }
    for (int axis = 0; axis < 2; axis++) {
      float[] c = correlation[1 + axis];
      double all = TileComparison.quantile(c, use, 0.7);
      double[] of = new double[SurfaceClass.COUNT];
      Arrays.fill(of, Math.max(0.15, all));
      for (SurfaceClass s : SurfaceClass.values()) {
        boolean[] in = new boolean[rows.length];
        int n = 0;
        for (int i = 0; i < in.length; i++) {
          in[i] = use[i] && joint[i] == s;
          n += in[i] ? 1 : 0;
        }
        if (n > 150) {
          of[s.ordinal()] =
              Math.max(0.15, Math.max(0.5 * all, TileComparison.quantile(c, in, 0.7)));
        }
      }
      float[] clearA = clearness(energies(figures.first(), axis), c, use);
      float[] clearB = clearness(energies(figures.second(), axis), c, use);
      for (int i = 0; i < rows.length; i++) {
        rows[i][18 + 2 * axis] = held(c[i] / of[joint[i].ordinal()], -0.3, 1.2);
        rows[i][19 + 2 * axis] = held(Math.min(clearA[i], clearB[i]), -2, 6) / 3;
      }
    }
    for (float[] r : rows) {
      r[22] = Math.min(r[18], r[20]);
    }
  }

  private static float[] energies(double[][] figures, int axis) {
    float[] out = new float[figures.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) Math.exp(2 * figures[i][1 + 3 * axis]);
    }
    return out;
  }

  /** Log odds of change, each clipped, for every tile. */
  float[] odds(TileChangeClassifier network, double most) {
    float[] out = new float[rows.length];
    IntStream.range(0, tiles.rows)
        .parallel()
        .forEach(
            r -> {
              for (int i = r * tiles.columns; i < (r + 1) * tiles.columns; i++) {
                out[i] = held(network.of(rows[i]), -most, most);
              }
            });
    return out;
  }
}
