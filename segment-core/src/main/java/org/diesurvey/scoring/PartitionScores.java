package org.diesurvey.scoring;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;

/**
 * How far two divisions of the same places into numbered parts agree; the numbers themselves do not
 * matter, only which places are together.
 */
public final class PartitionScores {
  private PartitionScores() {}

  /**
   * Variation of information in bits.
   *
   * @param splits H(test | truth): true parts that the test divides
   * @param merges H(truth | test): true parts that the test joins
   */
  public record VariationOfInformation(double splits, double merges) {
    /** Splits plus merges; 0 for the same division. */
    public double total() {
      return splits + merges;
    }
  }

  /**
   * Adapted Rand error with what it is made of.
   *
   * @param error 1 - F, 0 to 1
   * @param precision pairs together in both over pairs together in the truth, 0 to 1
   * @param recall pairs together in both over pairs together in the test, 0 to 1
   */
  public record AdaptedRand(double error, double precision, double recall) {}

  /**
   * Variation of information, Meila 2003 (reference from memory): H(test | truth) + H(truth |
   * test), logarithms to base 2.
   *
   * @param truth part of each place
   * @param test part of each place, same length
   * @param ignored places with this part in the truth are left out
   */
  public static VariationOfInformation variationOfInformation(
      int[] truth, int[] test, OptionalInt ignored) {
    Table table = new Table(truth, test, ignored);
    double splits = 0;
    double merges = 0;
    for (Map.Entry<Long, Long> e : table.both.entrySet()) {
      double joint = e.getValue() / (double) table.places;
      double inTruth = table.truth.get(truthOf(e.getKey())) / (double) table.places;
      double inTest = table.test.get(testOf(e.getKey())) / (double) table.places;
      splits -= joint * log2(joint / inTruth);
      merges -= joint * log2(joint / inTest);
    }
    // Adding zero turns a negative zero into zero.
    return new VariationOfInformation(splits + 0.0, merges + 0.0);
  }

  /**
   * Adapted Rand error, Arganda-Carreras et al. 2015 (reference from memory): 1 - sum p_ij^2 /
   * (alpha sum t_i^2 + (1 - alpha) sum s_j^2), with pairs of a place with itself left out. The
   * words precision and recall follow the open-source image library scikit-image.
   *
   * @param truth part of each place
   * @param test part of each place, same length
   * @param alpha weight of the precision, 0 to 1; 0.5 is usual
   * @param ignored places with this part in the truth are left out
   * @throws IllegalArgumentException if no two places are together in either division
   */
  public static AdaptedRand adaptedRand(
      int[] truth, int[] test, double alpha, OptionalInt ignored) {
    Table table = new Table(truth, test, ignored);
    double both = pairs(table.both);
    double inTruth = pairs(table.truth);
    double inTest = pairs(table.test);
    double weighted = alpha * inTruth + (1 - alpha) * inTest;
    if (!(alpha >= 0 && alpha <= 1) || weighted == 0) {
      throw new IllegalArgumentException(
          "needs alpha in 0..1 and at least two places together, alpha was " + alpha);
    }
    return new AdaptedRand(
        1 - both / weighted, inTruth == 0 ? 0 : both / inTruth, inTest == 0 ? 0 : both / inTest);
  }

  private static double pairs(Map<?, Long> sizes) {
    double sum = 0;
    for (long n : sizes.values()) {
      sum += (double) n * n - n;
    }
    return sum;
  }

  private static double log2(double v) {
    return Math.log(v) / Math.log(2);
  }

  private static long key(int truth, int test) {
    return ((long) truth << 32) | (test & 0xffffffffL);
  }

  private static int truthOf(long key) {
    return (int) (key >> 32);
  }

  private static int testOf(long key) {
    return (int) key;
  }

  private static final class Table {
    /** Sorted, so that sums do not depend on the order of a hash table. */
    final Map<Long, Long> both = new TreeMap<>();

    final Map<Integer, Long> truth = new HashMap<>();
    final Map<Integer, Long> test = new HashMap<>();
    long places;

    Table(int[] t, int[] s, OptionalInt ignored) {
      if (t.length != s.length) {
        throw new IllegalArgumentException(
            "divisions of " + t.length + " and " + s.length + " places cannot be compared");
      }
      for (int i = 0; i < t.length; i++) {
        if (ignored.isPresent() && t[i] == ignored.getAsInt()) {
          continue;
        }
        both.merge(key(t[i], s[i]), 1L, Long::sum);
        truth.merge(t[i], 1L, Long::sum);
        test.merge(s[i], 1L, Long::sum);
        places++;
      }
      if (places == 0) {
        throw new IllegalArgumentException("no place is left to compare");
      }
    }
  }
}
