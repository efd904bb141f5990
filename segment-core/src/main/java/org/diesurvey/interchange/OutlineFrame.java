package org.diesurvey.interchange;

import org.diesurvey.Supported;

/** The two frames that outlines come in. */
@Supported
public enum OutlineFrame {
  /** um; origin at the lower left die corner, x right, y up, the die's rotation taken out. */
  DIE_UM("um"),
  /** px of the photograph; origin at the outer corner of the first pixel, x right, y down. */
  PHOTO_PX("px");

  private final String unit;

  OutlineFrame(String unit) {
    this.unit = unit;
  }

  /** Unit of the coordinates, "um" or "px". */
  public String unit() {
    return unit;
  }
}
