package org.diesurvey.survey;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.Measured;

/**
 * One region of the die.
 *
 * @param id short name, unique in the survey: the short name of the class and a number, for example
 *     "MEM1"; unclear regions "UNC1"
 * @param dieClass the class; never off-die
 * @param reason why the region is unclear ("empty", "undecided", "damaged", "missing", "unlike the
 *     training data"); empty for others
 * @param outlinePx in the pixel frame of the photograph
 * @param outlineUm in the die frame; empty without a scale
 * @param bitCellArraysPx inner outlines of the bit-cell arrays of a memory region, pixel frame;
 *     else empty
 * @param bitCellArraysUm the same in the die frame; empty without a scale
 * @param areaPx area in square pixels
 * @param areaMm2 area in mm2; empty without a scale
 * @param shareOfDie area over the die's area, 0 to 1 (over the photo's area if no die edge was
 *     found)
 * @param confidence probability that the class is right, calibrated on drawn dies left out, 0 to 1
 * @param probabilities of the four on-die classes, each 0 to 1, summing to 1
 * @param periods dominant periods, strongest first; may be empty
 * @param finePattern whether cells or rows can be read; empty for macros, pad rings and unclear
 *     regions, and where it was not judged
 * @param neighbours ids of the regions that share an edge, in order
 * @param bondPads bond pads counted in a pad ring; empty for other classes and where none could be
 *     counted
 * @param padCounting how they were counted; empty without them, and in surveys that do not tell
 * @param memoryParts areas of arrays and periphery of a memory region; empty for other classes,
 *     without a scale, and where no arrays were found
 */
@Supported
public record SurveyRegion(
    String id,
    DieClass dieClass,
    Optional<String> reason,
    Outline outlinePx,
    Optional<Outline> outlineUm,
    List<Outline> bitCellArraysPx,
    List<Outline> bitCellArraysUm,
    double areaPx,
    Optional<Measured> areaMm2,
    double shareOfDie,
    double confidence,
    Map<DieClass, Double> probabilities,
    List<Period> periods,
    Optional<FinePattern> finePattern,
    List<String> neighbours,
    OptionalInt bondPads,
    Optional<PadCounting> padCounting,
    Optional<MemoryParts> memoryParts) {
  /** Copies the lists. */
  public SurveyRegion {
    bitCellArraysPx = List.copyOf(bitCellArraysPx);
    bitCellArraysUm = List.copyOf(bitCellArraysUm);
    probabilities = Map.copyOf(probabilities);
    periods = List.copyOf(periods);
    neighbours = List.copyOf(neighbours);
  }
}
