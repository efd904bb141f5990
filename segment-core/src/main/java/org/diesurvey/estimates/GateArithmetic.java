package org.diesurvey.estimates;

/**
 * Arithmetic of gate densities. A NAND2-equivalent is the area of the smallest two-input NAND of a
 * library; raw density counts cells without any gap between them.
 */
public final class GateArithmetic {
  private GateArithmetic() {}

  /**
   * Raw density, thousands of NAND2-equivalents per mm2.
   *
   * @param nand2Um2 area of a NAND2, um2, above 0
   */
  public static double rawKgatesPerMm2(double nand2Um2) {
    return 1000 / nand2Um2;
  }

  /**
   * NAND2-equivalents of cells.
   *
   * @param cellsUm2 area of all cells, um2
   * @param nand2Um2 area of a NAND2, um2, above 0
   */
  public static double nand2Equivalents(double cellsUm2, double nand2Um2) {
    return cellsUm2 / nand2Um2;
  }
}
