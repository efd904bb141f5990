package org.diesurvey.estimates;

import java.util.Arrays;

/** Drawn values of one quantity, growing. */
final class Samples {
  private double[] values = new double[1 << 14];
  private int n;

  void add(double v) {
    if (n == values.length) {
      values = Arrays.copyOf(values, 2 * n);
    }
    values[n++] = v;
  }

  int size() {
    return n;
  }

  /** Median and probabilistically symmetric 95 % interval, JCGM 101:2008, 7.7 (from memory). */
  Estimate estimate() {
    double[] sorted = sorted(0, n);
    return new Estimate(at(sorted, 0.5), at(sorted, 0.025), at(sorted, 0.975));
  }

  /** Mean, standard deviation, low and high end of a block of draws. */
  double[] summary(int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += values[i];
    }
    double mean = sum / (to - from);
    double square = 0;
    for (int i = from; i < to; i++) {
      square += (values[i] - mean) * (values[i] - mean);
    }
    double[] sorted = sorted(from, to);
    return new double[] {
      mean, Math.sqrt(square / (to - from - 1)), at(sorted, 0.025), at(sorted, 0.975)
    };
  }

  private double[] sorted(int from, int to) {
    double[] copy = Arrays.copyOfRange(values, from, to);
    Arrays.sort(copy);
    return copy;
  }

  private static double at(double[] sorted, double p) {
    return sorted[(int) Math.min(sorted.length - 1, Math.round(p * (sorted.length - 1)))];
  }
}
