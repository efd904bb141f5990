package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.scoring.ReliabilityTable.Answer;
import org.diesurvey.survey.Point;

/**
 * Scores a survey against the truth.
 *
 * <ul>
 *   <li><b>Scored pixels</b> are those whose truth is not 255; the share of the die that is not
 *       scored stands beside the figures. Off-die pixels are scored: a class given to them is a
 *       false positive.
 *   <li><b>IoU</b> of a class is TP / (TP + FP + FN) over the scored pixels. Unclear is no class: a
 *       pixel called unclear is missed. The mean goes over the on-die classes (memory array, hard
 *       macro, logic, pad ring) that the truth holds.
 *   <li><b>Shares</b> are parts of the scored on-die area, true and predicted over the same pixels;
 *       their difference is given in percentage points.
 *   <li><b>Edge distance</b>: from points on the true edges of a class, at most 1 px apart, to the
 *       nearest predicted edge of the same class, in um if the truth has a scale. True edges are
 *       the outlines of the truth file where it draws them (of a pad ring the inner edge), else the
 *       border of the class in the label map; the frame of the photograph is no edge. Points of a
 *       class that was predicted nowhere count as infinitely far. It is one-sided: surplus
 *       predicted edges show in the IoU.
 *   <li><b>Calibration</b>: a region is right if more than half of its scored pixels have its
 *       class; see {@link ReliabilityTable}.
 * </ul>
 */
public final class DieScorer {
  private DieScorer() {}

  /**
   * The score of one die.
   *
   * @param prediction in the same pixel frame as the truth
   * @throws IllegalArgumentException if the frames differ in size
   */
  public static ScoreCard score(Prediction prediction, Truth truth) {
    LabelRaster labels = prediction.labels();
    ConfusionMatrix confusion = ConfusionMatrix.of(truth.labels(), labels);
    List<ClassScore> classes = new ArrayList<>();
    List<double[]> distances = new ArrayList<>();
    for (DieClass c : ScoredClasses.ON_DIE) {
      double[] d = edgeDistancesPx(truth, labels, c);
      distances.add(d);
      classes.add(classScore(c, confusion, EdgeError.of(d, truth.umPerPx())));
    }
    double[] all = distances.stream().flatMapToDouble(Arrays::stream).toArray();
    List<Answer> answers = ConfidenceCheck.regions(prediction, truth.labels());
    int bins = ReliabilityTable.DEFAULT_BINS;
    return new ScoreCard(
        truth.name(),
        truth.umPerPx(),
        confusion,
        classes,
        EdgeError.of(all, truth.umPerPx()),
        table(answers),
        table(ConfidenceCheck.unweighted(answers)),
        prediction.confidence().map(m -> ConfidenceCheck.tiles(labels, m, truth.labels(), bins)),
        notScored(truth.labels(), confusion),
        WholeMemories.iou(truth, labels),
        prediction.bondPads().isPresent() && truth.bondPads().orElse(0) > 0
            ? Optional.of(
                new PadCount(prediction.bondPads().getAsInt(), truth.bondPads().getAsInt()))
            : Optional.empty());
  }

  private static double notScored(LabelRaster truth, ConfusionMatrix confusion) {
    long unjudged = truth.array().length - confusion.scored();
    return unjudged / (double) Math.max(1, unjudged + confusion.scoredOnDie());
  }

  private static ClassScore classScore(DieClass c, ConfusionMatrix confusion, EdgeError edges) {
    double onDie = Math.max(1, confusion.scoredOnDie());
    return new ClassScore(
        c,
        confusion.trueCount(c) > 0,
        confusion.iou(c),
        confusion.precision(c),
        confusion.recall(c),
        confusion.trueCount(c) / onDie,
        confusion.predictedCount(c, ScoredClasses.ON_DIE) / onDie,
        edges);
  }

  private static double[] edgeDistancesPx(Truth truth, LabelRaster predicted, DieClass c) {
    List<Point> points = TrueEdges.of(truth, c);
    if (points.isEmpty()) {
      return new double[0];
    }
    EdgeGrid edges = new EdgeGrid(predicted, c.code());
    return points.stream().mapToDouble(edges::distance).toArray();
  }

  private static Optional<ReliabilityTable> table(List<Answer> answers) {
    return answers.isEmpty()
        ? Optional.empty()
        : Optional.of(ReliabilityTable.of(answers, ReliabilityTable.DEFAULT_BINS));
  }
}
