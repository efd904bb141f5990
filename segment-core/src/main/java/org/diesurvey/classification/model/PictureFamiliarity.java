package org.diesurvey.classification.model;

import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * How far a whole picture lies from the drawn dies: the Mahalanobis distance (1936, from memory) of
 * the mean of its standardised tile features from those of the training dies. Single tiles of a
 * landscape or of printed text pass for surfaces of a die; their mean does not.
 */
public final class PictureFamiliarity {
  /** Share of the covariance that is replaced by its mean variance: there are few dies. */
  private static final double SHRINKAGE = 0.2;

  /** Share of the training dies that lie inside, and the margin beyond them. */
  private static final double TYPICAL = 0.99;

  private static final double MARGIN = 1.1;

  private final float[] centre;
  private final float[][] inverse;
  private final float border;

  /**
   * @param centre mean of the training dies
   * @param inverse inverse of their covariance, symmetric
   * @param border mean square distance that counts as the edge of what is known
   */
  public PictureFamiliarity(float[] centre, float[][] inverse, float border) {
    this.centre = centre;
    this.inverse = inverse;
    this.border = border;
  }

  float[] centre() {
    return centre;
  }

  float[][] inverse() {
    return inverse;
  }

  float border() {
    return border;
  }

  /**
   * Learns from one mean vector a die.
   *
   * @param means standardised features, at least two dies
   */
  public static PictureFamiliarity learn(List<float[]> means) {
    int n = means.get(0).length;
    float[] centre = mean(means);
    double[][] covariance = new double[n][n];
    for (float[] m : means) {
      for (int i = 0; i < n; i++) {
        for (int j = 0; j <= i; j++) {
          covariance[i][j] += (m[i] - centre[i]) * (m[j] - centre[j]) / (means.size() - 1.0);
        }
      }
    }
    double variance = 1e-6;
    for (int i = 0; i < n; i++) {
      variance += covariance[i][i] / n;
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        covariance[i][j] *= 1 - SHRINKAGE;
        covariance[i][j] += i == j ? SHRINKAGE * variance : 0;
        covariance[j][i] = covariance[i][j];
      }
    }
    RealMatrix inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(covariance, false))
            .getSolver()
            .getInverse();
    float[][] rows = new float[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        rows[i][j] = (float) (0.5 * (inverse.getEntry(i, j) + inverse.getEntry(j, i)));
      }
    }
    PictureFamiliarity plain = new PictureFamiliarity(centre, rows, 1);
    double[] all = means.stream().mapToDouble(plain::distance).sorted().toArray();
    double inside = all[(int) Math.min(all.length - 1, Math.floor(TYPICAL * all.length))];
    return new PictureFamiliarity(centre, rows, (float) Math.max(1e-6, MARGIN * inside));
  }

  public static float[] mean(List<float[]> rows) {
    Mean mean = new Mean(rows.get(0).length);
    rows.forEach(mean::add);
    return mean.value();
  }

  /** Mean of rows that come one after the other. */
  static final class Mean {
    private final double[] sum;
    private int rows;

    Mean(int features) {
      sum = new double[features];
    }

    void add(float[] row) {
      rows++;
      for (int i = 0; i < sum.length; i++) {
        sum[i] += row[i];
      }
    }

    boolean isEmpty() {
      return rows == 0;
    }

    /** Zeros without rows. */
    float[] value() {
      float[] out = new float[sum.length];
      for (int i = 0; i < out.length; i++) {
        out[i] = (float) (sum[i] / Math.max(1, rows));
      }
      return out;
    }
  }

  /** Distance of a picture over that of the border: above 1 it is unlike the training dies. */
  double distance(float[] mean) {
    return between(mean, centre) / border;
  }

  /** Mean square distance of two pictures in the covariance of the training dies. */
  double between(float[] a, float[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      double row = 0;
      for (int j = 0; j < a.length; j++) {
        row += inverse[i][j] * (double) (a[j] - b[j]);
      }
      sum += row * (a[i] - b[i]);
    }
    return sum / a.length;
  }
}
