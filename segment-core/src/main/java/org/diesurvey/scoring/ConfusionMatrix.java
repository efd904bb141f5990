package org.diesurvey.scoring;

import java.util.Collection;
import java.util.List;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;

/**
 * How many pixels of each true class were given each class. Pixels whose truth is 255 are not
 * scored and not counted anywhere. Pixels predicted unclear count as wrong for their true class and
 * as found by none.
 */
public final class ConfusionMatrix {
  private static final int COLUMNS = ScoredClasses.PREDICTED.size();
  private static final int UNCLEAR_COLUMN = COLUMNS - 1;

  private final long[] counts;

  private ConfusionMatrix(long[] counts) {
    this.counts = counts;
  }

  /**
   * Counts two maps of the same frame.
   *
   * @param truth codes 0 to 4, and 255 for not scored
   * @param predicted codes 0 to 4, and 255 for unclear
   * @throws IllegalArgumentException if the sizes differ or a map holds another code
   */
  public static ConfusionMatrix of(LabelRaster truth, LabelRaster predicted) {
    requireSameFrame(truth, predicted);
    long[] counts = new long[ScoredClasses.TRUE.size() * COLUMNS];
    byte[] t = truth.array();
    byte[] p = predicted.array();
    for (int i = 0; i < t.length; i++) {
      int row = t[i] & 0xff;
      if (row == Truth.NOT_SCORED) {
        continue;
      }
      int code = p[i] & 0xff;
      int column = code == DieClass.UNCLEAR.code() ? UNCLEAR_COLUMN : code;
      if (row >= ScoredClasses.TRUE.size() || (column == code && code >= UNCLEAR_COLUMN)) {
        throw new IllegalArgumentException(
            "label maps use 0 to 4 and 255, found truth " + row + " and prediction " + code);
      }
      counts[row * COLUMNS + column]++;
    }
    return new ConfusionMatrix(counts);
  }

  static void requireSameFrame(LabelRaster truth, LabelRaster predicted) {
    if (truth.width() != predicted.width() || truth.height() != predicted.height()) {
      throw new IllegalArgumentException(
          "truth is "
              + truth.width()
              + " x "
              + truth.height()
              + " px, the prediction "
              + predicted.width()
              + " x "
              + predicted.height()
              + " px: they must share the photograph's frame");
    }
  }

  /** True classes in the order of the rows. */
  public List<DieClass> rows() {
    return ScoredClasses.TRUE;
  }

  /** Predicted classes in the order of the columns. */
  public List<DieClass> columns() {
    return ScoredClasses.PREDICTED;
  }

  /** Pixels of true class {@code truth} that were given {@code predicted}. */
  public long count(DieClass truth, DieClass predicted) {
    int row = ScoredClasses.TRUE.indexOf(truth);
    int column = ScoredClasses.PREDICTED.indexOf(predicted);
    if (row < 0) {
      throw new IllegalArgumentException("truth is never " + truth.label());
    }
    return counts[row * COLUMNS + column];
  }

  /** Scored pixels whose truth is this class. */
  public long trueCount(DieClass truth) {
    return ScoredClasses.PREDICTED.stream().mapToLong(p -> count(truth, p)).sum();
  }

  /** Scored pixels, off-die ones included, that were given this class. */
  public long predictedCount(DieClass predicted) {
    return predictedCount(predicted, ScoredClasses.TRUE);
  }

  /** Pixels with one of the given true classes that were given this class. */
  long predictedCount(DieClass predicted, Collection<DieClass> truths) {
    return truths.stream().mapToLong(t -> count(t, predicted)).sum();
  }

  /** All scored pixels, off-die ones included. */
  public long scored() {
    return ScoredClasses.TRUE.stream().mapToLong(this::trueCount).sum();
  }

  /** Scored pixels whose truth is one of the four on-die classes. */
  public long scoredOnDie() {
    return ScoredClasses.ON_DIE.stream().mapToLong(this::trueCount).sum();
  }

  /**
   * Intersection over union TP / (TP + FP + FN) over the scored pixels; a scored off-die pixel that
   * was given the class is a false positive. Empty where the class is neither true nor given.
   */
  public OptionalDouble iou(DieClass dieClass) {
    long both = count(dieClass, dieClass);
    long either = trueCount(dieClass) + predictedCount(dieClass) - both;
    return share(both, either);
  }

  /** TP / (TP + FP); empty where the class was given nowhere. */
  public OptionalDouble precision(DieClass dieClass) {
    return share(count(dieClass, dieClass), predictedCount(dieClass));
  }

  /** TP / (TP + FN); empty where the class is nowhere true. */
  public OptionalDouble recall(DieClass dieClass) {
    return share(count(dieClass, dieClass), trueCount(dieClass));
  }

  /** F1 = 2 TP / (2 TP + FP + FN) = 2 IoU / (1 + IoU); empty where the IoU is. */
  public OptionalDouble f1(DieClass dieClass) {
    return share(2 * count(dieClass, dieClass), trueCount(dieClass) + predictedCount(dieClass));
  }

  /** Mean IoU over the on-die classes that the truth holds; empty if it holds none. */
  public OptionalDouble meanIou() {
    return ScoredClasses.ON_DIE.stream()
        .filter(c -> trueCount(c) > 0)
        .mapToDouble(c -> iou(c).orElseThrow())
        .average();
  }

  private static OptionalDouble share(long part, long whole) {
    return whole == 0 ? OptionalDouble.empty() : OptionalDouble.of(part / (double) whole);
  }
}
