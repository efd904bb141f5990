package org.diesurvey.estimates;

import java.util.Locale;

/**
 * What would shrink each cause, in one sentence with figures.
 *
 * @param byHand whether a person drew the outlines already
 * @param arrays whether the arrays are outlined on their own
 * @param rowsRead whether the row height was measured
 * @param finestCellUm2 smallest likely bit cell, um2; 0 if not known
 * @param rowSpread relative spread of gate densities at a known row height
 * @param macroSpread relative spread of bits where only whole macros are outlined
 * @param arraySpread relative spread of bits where arrays are outlined
 */
record Remedies(
    boolean byHand,
    boolean arrays,
    boolean rowsRead,
    double finestCellUm2,
    double rowSpread,
    double macroSpread,
    double arraySpread) {
  /** Relative uncertainty of a pitch measured with a stage micrometer (common practice). */
  private static final double MICROMETER = 0.0015;

  /** Relative uncertainty of a bit cell whose lattice is resolved, as measured on drawn dies. */
  private static final double LATTICE = 0.03;

  String sentence(Factor factor, double relative) {
    String now = percent(relative);
    return switch (factor) {
      case SCALE ->
          relative > 3 * MICROMETER
              ? "A calibration with a stage micrometer would cut this from "
                  + now
                  + " to "
                  + percent(2 * MICROMETER)
                  + "."
              : "Nothing is to be gained here.";
      case EDGE ->
          byHand
              ? "Outlines drawn on a finer photograph would cut this."
              : "Outlines corrected by hand and measured again (command measure) would cut this.";
      case EXTENT ->
          "Outlines checked and corrected by hand, then measured again (command measure), would"
              + " take these "
              + now
              + " away.";
      case CELL, CELL_KIND ->
          (factor == Factor.CELL_KIND
                  ? "Stating the ports in an outline file (command measure) would cut this. A"
                  : "A")
              + " photograph that resolves the bit-cell lattice"
              + (finestCellUm2 > 0
                  ? String.format(
                      Locale.ROOT,
                      " (about %.2g \u00b5m per px and optics to match)",
                      Math.sqrt(finestCellUm2) / 4)
                  : "")
              + ", or the cell's size in a file for --densities, would cut it from "
              + now
              + " to about "
              + percent(LATTICE)
              + ".";
      case LATTICE ->
          "Counting the cells of one array between two straps by eye would settle the reading and"
              + " cut this from "
              + now
              + " to about 1 %.";
      case EFFICIENCY ->
          arrays
              ? "Counting the rows and columns of one array by eye would cut this from "
                  + now
                  + " to about 2 %."
              : "Outlining the bit-cell arrays on their own would cut this from "
                  + percent(macroSpread)
                  + " to about "
                  + percent(arraySpread)
                  + ".";
      case DENSITY ->
          rowsRead
              ? "The size of the process's NAND2 in a file for --densities would cut this from "
                  + now
                  + " to under 1 %."
              : "A photograph that resolves the rows would narrow this from "
                  + now
                  + " to about "
                  + percent(rowSpread)
                  + ".";
      case ROW ->
          "The size of the process's NAND2 in a file for --densities would cut this from "
              + now
              + " to under 1 %.";
      case ROW_READING ->
          "Stating the process node, or measuring one row by eye, would take these "
              + now
              + " away.";
      case UTILISATION ->
          "Counting the filled share of the rows in a sample field would cut this from "
              + now
              + " to about 3 %.";
      case DESIGN ->
          "Nothing: the same design in five libraries differs by about 12 %, whatever the"
              + " photograph.";
    };
  }

  private static String percent(double relative) {
    double v = 100 * relative;
    return v < 10
        ? String.format(Locale.ROOT, "%.1f %%", v)
        : String.format(Locale.ROOT, "%.0f %%", v);
  }
}
