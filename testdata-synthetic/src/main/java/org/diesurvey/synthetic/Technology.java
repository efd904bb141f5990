package org.diesurvey.synthetic;

/**
 * An invented process: its dimensions and how its layers reflect. Dimensions follow the node with
 * wide scatter. The ratios (row height 18 to 34 node lengths, bit cell 90 to 600 squares) span what
 * open cell libraries of 180, 130 and 45 nm publish; beyond that, common practice, no source.
 *
 * @param nodeNm process node
 * @param gateUm drawn gate length
 * @param diffusionUm least width of a diffusion island
 * @param rowHeightUm height of a standard-cell row
 * @param siteUm placement step along a row
 * @param bitCellUm2 area of the ordinary bit cell
 * @param ioGateUm gate length of the thick-oxide transistors
 */
record Technology(
    String name,
    double nodeNm,
    double gateUm,
    double diffusionUm,
    double rowHeightUm,
    double siteUm,
    double bitCellUm2,
    double ioGateUm,
    Reflectance reflectance) {

  static Technology draw(Dice dice, double coarsestNm, double finestNm, boolean showpiece) {
    double node = dice.logUniform(finestNm, coarsestNm);
    double f = node / 1000;
    double row = Math.max(0.9, Math.min(13, f * dice.uniform(18, 34)));
    double area = f * f * dice.logUniform(90, 600);
    String name = "drawn-" + Math.round(node) + "-" + Long.toString(dice.bits() & 0xFFFF, 36);
    return new Technology(
        name,
        node,
        f,
        f * dice.uniform(1.1, 2.2),
        row,
        row / dice.uniform(5, 9.5),
        area,
        Math.max(f, dice.uniform(0.25, 0.6)),
        Reflectance.draw(dice.child("reflectance"), showpiece));
  }
}
