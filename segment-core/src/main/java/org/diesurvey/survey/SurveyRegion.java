package org.diesurvey.survey;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;

/**
 * One region of the die.
 *
 * @param id short name, unique in the survey: the short name of the class and a number, for example
 *     "MEM1"; unclear regions "UNC1"
 * @param verdict its class, and how sure that is
 * @param inPhoto outlines in the pixel frame of the photograph
 * @param inDie the same in the die frame, um; empty without a scale
 * @param area how large it is
 * @param periods dominant periods, strongest first; may be empty
 * @param finePattern whether cells or rows can be read; empty for macros, pad rings and unclear
 *     regions, and where it was not judged
 * @param neighbours ids of the regions that share an edge, in order
 * @param bondPads of a pad ring; empty for other classes and where none could be counted
 */
@Supported
public record SurveyRegion(
    String id,
    ClassVerdict verdict,
    RegionShape inPhoto,
    Optional<RegionShape> inDie,
    RegionArea area,
    List<Period> periods,
    Optional<FinePattern> finePattern,
    List<String> neighbours,
    Optional<BondPadCount> bondPads) {
  /** Copies the lists. */
  public SurveyRegion {
    periods = List.copyOf(periods);
    neighbours = List.copyOf(neighbours);
  }

  /** The class; never off-die. */
  public DieClass dieClass() {
    return verdict.dieClass();
  }

  /** Probability that the class is right, 0 to 1. */
  public double confidence() {
    return verdict.confidence();
  }

  /** Area in mm2; empty without a scale. */
  public Optional<Measured> areaMm2() {
    return area.mm2().map(MeasuredArea::joined);
  }
}
