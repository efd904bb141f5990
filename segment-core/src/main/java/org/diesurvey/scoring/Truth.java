package org.diesurvey.scoring;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.diesurvey.raster.LabelRaster;

/**
 * What is truly on a photographed die. Everything but the name and the label map may be unknown.
 *
 * @param name of the photograph, without folders and extension
 * @param labels true classes in the photograph's pixel frame: 0 off-die, 1 to 4 the on-die classes,
 *     255 not scored
 * @param umPerPx true pixel pitch
 * @param outlines true outlines of blocks; a class may have none although it is on the die
 * @param bitCellArraysUm bit-cell arrays inside the memory macros, in the frame of the truth file:
 *     um from the upper left die corner, y down
 * @param bondPads number of bond pads
 * @param bits number of memory bits
 * @param nand2Equivalents logic in units of a two-input NAND
 */
public record Truth(
    String name,
    LabelRaster labels,
    OptionalDouble umPerPx,
    List<TruthOutline> outlines,
    List<RectUm> bitCellArraysUm,
    OptionalInt bondPads,
    OptionalLong bits,
    OptionalDouble nand2Equivalents) {

  /** Code in a truth map for pixels that are not scored. */
  public static final int NOT_SCORED = 255;

  /**
   * An upright rectangle on the die.
   *
   * @param xUm left edge
   * @param yUm upper edge
   * @param widthUm positive
   * @param heightUm positive
   */
  public record RectUm(double xUm, double yUm, double widthUm, double heightUm) {}

  /** Copies the lists. */
  public Truth {
    outlines = List.copyOf(outlines);
    bitCellArraysUm = List.copyOf(bitCellArraysUm);
  }

  /** A truth of which only the label map and perhaps the scale are known. */
  public static Truth ofLabels(String name, LabelRaster labels, OptionalDouble umPerPx) {
    return new Truth(
        name,
        labels,
        umPerPx,
        List.of(),
        List.of(),
        OptionalInt.empty(),
        OptionalLong.empty(),
        OptionalDouble.empty());
  }
}
