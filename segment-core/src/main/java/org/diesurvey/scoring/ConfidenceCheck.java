package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.scoring.ReliabilityTable.Answer;
import org.diesurvey.scoring.ReliabilityTable.Bin;

/** Compares stated confidence with the truth. */
final class ConfidenceCheck {
  private ConfidenceCheck() {}

  /**
   * One answer per region. A region is right if more than half of its scored pixels truly have its
   * class; off-die pixels are scored. Regions without a scored pixel are left out. The weight is
   * the region's scored area in square pixels.
   */
  static List<Answer> regions(Prediction prediction, LabelRaster truth) {
    List<Answer> answers = new ArrayList<>();
    for (Prediction.PredictedRegion r : prediction.regions()) {
      long[] counts = OutlineFill.histogram(truth, r.outlinePx());
      long scored = 0;
      for (int code = 0; code < Truth.NOT_SCORED; code++) {
        scored += counts[code];
      }
      if (scored > 0) {
        boolean right = 2 * counts[r.dieClass().code()] > scored;
        answers.add(new Answer(r.confidence(), right, scored));
      }
    }
    return answers;
  }

  /** The same answers, each with weight 1. */
  static List<Answer> unweighted(List<Answer> answers) {
    return answers.stream().map(a -> new Answer(a.confidence(), a.right(), 1)).toList();
  }

  /**
   * Reliability of a confidence map: every scored pixel that was given an on-die class is one
   * answer, so that a tile weighs as much as its scored area.
   *
   * @param confidence 0 to 255 for 0 to 1
   */
  static ReliabilityTable tiles(
      LabelRaster predicted, LabelRaster confidence, LabelRaster truth, int binCount) {
    long[] all = new long[256];
    long[] right = new long[256];
    byte[] t = truth.array();
    byte[] p = predicted.array();
    byte[] c = confidence.array();
    for (int i = 0; i < t.length; i++) {
      int given = p[i] & 0xff;
      if ((t[i] & 0xff) == Truth.NOT_SCORED
          || given == DieClass.UNCLEAR.code()
          || given == DieClass.OFF_DIE.code()) {
        continue;
      }
      all[c[i] & 0xff]++;
      if (t[i] == p[i]) {
        right[c[i] & 0xff]++;
      }
    }
    List<Bin> bins = new ArrayList<>(ReliabilityTable.empty(binCount).bins());
    for (int code = 0; code < 256; code++) {
      double stated = code / 255.0;
      int i = ReliabilityTable.binOf(stated, binCount);
      Bin b = bins.get(i);
      bins.set(
          i,
          new Bin(
              b.low(),
              b.high(),
              b.weight() + all[code],
              b.weightedConfidence() + all[code] * stated,
              b.weightRight() + right[code]));
    }
    return new ReliabilityTable(bins);
  }
}
