package org.diesurvey.report.text;

import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.SurveyRegion;

/** What a region holds, in words: bond pads of a ring, arrays and periphery of a memory. */
public final class InsideWords {
  private InsideWords() {}

  /** Empty for regions of which nothing is told. */
  public static Optional<String> of(SurveyRegion r) {
    if (r.bondPads().isPresent()) {
      return r.bondPads().map(InsideWords::pads);
    }
    if (r.dieClass() == DieClass.PAD_RING) {
      return Optional.of("bond pads not counted: nothing repeats clearly along the ring");
    }
    int arrays = r.inPhoto().bitCellArrays().size();
    if (arrays == 0) {
      return Optional.empty();
    }
    String count = arrays + (arrays == 1 ? " bit-cell array" : " bit-cell arrays");
    return Optional.of(
        r.area()
            .memoryParts()
            .map(
                p ->
                    count
                        + " of "
                        + Quantities.withUncertainty(p.arrayMm2(), "mm\u00b2")
                        + ", periphery "
                        + Quantities.withUncertainty(p.peripheryMm2(), "mm\u00b2"))
            .orElse(count));
  }

  private static String pads(BondPadCount b) {
    String count = "about " + b.pads() + " bond pads";
    return b.counting()
        .map(
            c ->
                count
                    + " \u00b1 "
                    + Math.round(Math.max(1, c.standardUncertainty()))
                    + (c.seen() ? "" : ", counted as I/O cells: no pads stand out")
                    + (c.pitchUm().isPresent()
                        ? ", pitch " + Math.round(c.pitchUm().getAsDouble()) + " \u00b5m"
                        : ""))
        .orElse(count);
  }
}
