package org.diesurvey.classification;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.RealVector;

/**
 * Linear discriminant analysis with equal priors and a pooled covariance that is shrunk towards a
 * multiple of the identity: S' = (1 - a) S + a (trace S / p) I (Friedman 1989, Regularized
 * Discriminant Analysis, from memory). Technologies differ more than tiles of one technology do,
 * which is why the shrinkage is strong.
 */
final class ShrunkenDiscriminant {
  private ShrunkenDiscriminant() {}

  /**
   * Trains.
   *
   * @param z standardised rows
   * @param labels class ordinals
   * @param shrinkage a, 0 to 1
   */
  static LinearStage train(float[][] z, int[] labels, double shrinkage) {
    int p = z[0].length;
    int k = SurfaceClass.COUNT;
    double[][] mean = new double[k][p];
    double[] count = new double[k];
    for (int i = 0; i < z.length; i++) {
      count[labels[i]]++;
      for (int f = 0; f < p; f++) {
        mean[labels[i]][f] += z[i][f];
      }
    }
    for (int c = 0; c < k; c++) {
      for (int f = 0; f < p; f++) {
        mean[c][f] /= Math.max(1, count[c]);
      }
    }
    double[][] s = new double[p][p];
    double total = 0;
    for (int c = 0; c < k; c++) {
      if (count[c] > 0) {
        // Every class weighs the same in the pooled covariance.
        addScatter(z, labels, c, mean[c], 1 / count[c], s);
        total++;
      }
    }
    double trace = 0;
    for (int f = 0; f < p; f++) {
      trace += s[f][f] / total / p;
    }
    for (int f = 0; f < p; f++) {
      for (int g = 0; g < p; g++) {
        double full = f <= g ? s[f][g] : s[g][f];
        s[f][g] = full;
      }
    }
    for (int f = 0; f < p; f++) {
      for (int g = 0; g < p; g++) {
        s[f][g] = (1 - shrinkage) * s[f][g] / total + (f == g ? shrinkage * trace : 0);
      }
    }
    DecompositionSolver solver =
        new CholeskyDecomposition(new Array2DRowRealMatrix(s, false), 1e-6, 1e-12).getSolver();
    float[][] weights = new float[k][p];
    float[] bias = new float[k];
    for (int c = 0; c < k; c++) {
      RealVector w =
          solver.solve(new org.apache.commons.math3.linear.ArrayRealVector(mean[c], false));
      double dot = 0;
      for (int f = 0; f < p; f++) {
        weights[c][f] = (float) w.getEntry(f);
        dot += w.getEntry(f) * mean[c][f];
      }
      bias[c] = (float) (-0.5 * dot);
    }
    return new LinearStage("linear discriminant, shrinkage " + shrinkage, weights, bias);
  }

  private static void addScatter(
      float[][] z, int[] labels, int c, double[] mean, double weight, double[][] s) {
    int p = mean.length;
    double[] d = new double[p];
    for (int i = 0; i < z.length; i++) {
      if (labels[i] != c) {
        continue;
      }
      for (int f = 0; f < p; f++) {
        d[f] = z[i][f] - mean[f];
      }
      for (int f = 0; f < p; f++) {
        double w = weight * d[f];
        double[] row = s[f];
        for (int g = f; g < p; g++) {
          row[g] += w * d[g];
        }
      }
    }
  }
}
