package org.diesurvey.comparison.registration;

import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.raster.PlaneTransform;

/**
 * The frames of a comparison: um with y down inside, the unit of the document with y up outside.
 *
 * @param unit of the document
 * @param perUm document units in a um of the first die
 * @param perUmB the same for the second die's own frame
 * @param heightA height of the first die, um
 * @param ownToUmA from the first survey's own die frame (y up) to um, y down
 * @param ownToUmB the same for the second survey
 * @param aToB from the first die frame to the second, document units, y up
 */
public record Frames(
    LengthUnit unit,
    double perUm,
    double perUmB,
    double heightA,
    PlaneTransform ownToUmA,
    PlaneTransform ownToUmB,
    PlaneTransform aToB) {

  public static Frames of(ScaledDie a, ScaledDie b, Registrar.Found found) {
    boolean scaled = a.scaled() && b.scaled();
    double perUm = scaled ? 1 : 1 / photoPitch(a);
    double perUmB = scaled ? 1 : 1 / photoPitch(b);
    PlaneTransform out =
        new PlaneTransform(1 / perUm, 0, 0, 0, -1 / perUm, a.heightUm())
            .then(found.aToB())
            .then(new PlaneTransform(perUmB, 0, 0, 0, -perUmB, b.heightUm() * perUmB));
    return new Frames(
        scaled ? LengthUnit.UM : LengthUnit.PX, perUm, perUmB, a.heightUm(), own(a), own(b), out);
  }

  private static double photoPitch(ScaledDie d) {
    return d.umPerPx() / d.die().bin();
  }

  private static PlaneTransform own(ScaledDie d) {
    double um = d.scaled() ? 1 : photoPitch(d);
    return new PlaneTransform(um, 0, 0, 0, -um, d.heightUm());
  }

  /** From um, y down, to tiles. */
  public PlaneTransform gridFromUm(double tileUm) {
    return new PlaneTransform(1 / tileUm, 0, 0, 0, 1 / tileUm, 0);
  }

  /** From tiles to the document's frame. */
  public PlaneTransform documentFromGrid(double tileUm) {
    return new PlaneTransform(tileUm * perUm, 0, 0, 0, -tileUm * perUm, heightA * perUm);
  }
}
