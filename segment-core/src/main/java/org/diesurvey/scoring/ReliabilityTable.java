package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;

/**
 * Stated confidence beside how often it was right, in equal bins of confidence.
 *
 * <p>Bins are half open, (low, high], and the first one holds 0 as well. Source of the measures:
 * Guo et al., "On calibration of modern neural networks", ICML 2017: the sum over bins of weight
 * share times |share right - mean confidence|.
 *
 * @param bins in order of confidence, equal widths from 0 to 1
 */
public record ReliabilityTable(List<Bin> bins) {

  /** Bins used throughout unless a caller says otherwise. */
  public static final int DEFAULT_BINS = 10;

  /**
   * One bin.
   *
   * @param low confidence above this
   * @param high confidence up to this
   * @param weight total weight of the answers in the bin: a count, an area in px
   * @param weightedConfidence sum of weight times confidence
   * @param weightRight weight of the answers that were right
   */
  public record Bin(
      double low, double high, double weight, double weightedConfidence, double weightRight) {
    /** Mean stated confidence; 0 for an empty bin. */
    public double meanConfidence() {
      return weight == 0 ? 0 : weightedConfidence / weight;
    }

    /** Share that was right; 0 for an empty bin. */
    public double shareRight() {
      return weight == 0 ? 0 : weightRight / weight;
    }

    /** Absolute difference of confidence and share right; 0 for an empty bin. */
    public double gap() {
      return Math.abs(shareRight() - meanConfidence());
    }

    private Bin plus(double more, double moreConfidence, double moreRight) {
      return new Bin(
          low, high, weight + more, weightedConfidence + moreConfidence, weightRight + moreRight);
    }
  }

  /**
   * One answer.
   *
   * @param confidence stated, 0 to 1
   * @param right whether it was
   * @param weight above 0
   */
  public record Answer(double confidence, boolean right, double weight) {}

  /** Copies the list; at least one bin. */
  public ReliabilityTable {
    bins = List.copyOf(bins);
    if (bins.isEmpty()) {
      throw new IllegalArgumentException("a reliability table needs at least one bin");
    }
  }

  /** A table without answers. */
  public static ReliabilityTable empty(int binCount) {
    List<Bin> bins = new ArrayList<>();
    for (int i = 0; i < binCount; i++) {
      bins.add(new Bin(i / (double) binCount, (i + 1) / (double) binCount, 0, 0, 0));
    }
    return new ReliabilityTable(bins);
  }

  /** The table of some answers. */
  public static ReliabilityTable of(List<Answer> answers, int binCount) {
    List<Bin> bins = new ArrayList<>(empty(binCount).bins);
    for (Answer a : answers) {
      int i = binOf(a.confidence, binCount);
      bins.set(i, bins.get(i).plus(a.weight, a.weight * a.confidence, a.right ? a.weight : 0));
    }
    return new ReliabilityTable(bins);
  }

  /**
   * The bin that a confidence belongs to.
   *
   * @param confidence 0 to 1
   */
  static int binOf(double confidence, int binCount) {
    if (!(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException("confidence must be in 0..1, was " + confidence);
    }
    return (int) Math.max(0, Math.ceil(confidence * binCount) - 1);
  }

  /** Answers of both tables; both have the same number of bins. */
  public ReliabilityTable plus(ReliabilityTable other) {
    if (other.bins.size() != bins.size()) {
      throw new IllegalArgumentException(
          "tables of " + bins.size() + " and " + other.bins.size() + " bins do not add up");
    }
    List<Bin> sum = new ArrayList<>();
    for (int i = 0; i < bins.size(); i++) {
      Bin o = other.bins.get(i);
      sum.add(bins.get(i).plus(o.weight, o.weightedConfidence, o.weightRight));
    }
    return new ReliabilityTable(sum);
  }

  /** The same table with a total weight of 1; unchanged if it holds no answer. */
  public ReliabilityTable normalised() {
    double total = totalWeight();
    if (total == 0) {
      return this;
    }
    return new ReliabilityTable(
        bins.stream()
            .map(
                b ->
                    new Bin(
                        b.low,
                        b.high,
                        b.weight / total,
                        b.weightedConfidence / total,
                        b.weightRight / total))
            .toList());
  }

  /** Weight of all answers. */
  public double totalWeight() {
    return bins.stream().mapToDouble(Bin::weight).sum();
  }

  /** Expected calibration error, 0 to 1: the weighted mean gap; 0 for an empty table. */
  public double expectedError() {
    double total = totalWeight();
    return total == 0 ? 0 : bins.stream().mapToDouble(b -> b.weight * b.gap()).sum() / total;
  }

  /** Root of the weighted mean squared gap, 0 to 1; 0 for an empty table. */
  public double rootMeanSquareError() {
    double total = totalWeight();
    return total == 0
        ? 0
        : Math.sqrt(bins.stream().mapToDouble(b -> b.weight * b.gap() * b.gap()).sum() / total);
  }

  /** Largest gap of any bin, 0 to 1. */
  public double maximumError() {
    return bins.stream().mapToDouble(Bin::gap).max().orElseThrow();
  }
}
