package org.diesurvey.comparison;

import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;

/** From a die frame (unit of length of the comparison, origin lower left, y up) to a photograph. */
public final class DiePlace {
  private final PlaneMap uprightToPhoto;
  private final double unitPerPx;
  private final int widthPx;
  private final int heightPx;

  DiePlace(PreparedDie die, double unitPerPx) {
    this.uprightToPhoto = die.uprightToPhoto();
    this.unitPerPx = unitPerPx;
    this.widthPx = die.width();
    this.heightPx = die.height();
  }

  /** Width of the upright die, unit of length. */
  public double width() {
    return widthPx * unitPerPx;
  }

  /** Height of the upright die, unit of length. */
  public double height() {
    return heightPx * unitPerPx;
  }

  /** Column in the photograph, px, of a place of the die frame. */
  public double photoX(double x, double y) {
    return uprightToPhoto.x(x / unitPerPx, heightPx - y / unitPerPx);
  }

  /** Row in the photograph, px, of a place of the die frame. */
  public double photoY(double x, double y) {
    return uprightToPhoto.y(x / unitPerPx, heightPx - y / unitPerPx);
  }

  /**
   * Pitch of the upright die, unit of length per px; about that of the photograph or a multiple.
   */
  public double unitPerPx() {
    return unitPerPx;
  }
}
