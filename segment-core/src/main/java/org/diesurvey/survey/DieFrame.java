package org.diesurvey.survey;

import java.util.List;
import java.util.Optional;
import org.diesurvey.quantity.Measured;

/**
 * Where the die lies in the photograph.
 *
 * @param edgeFound whether a die edge was found; if not, the whole photograph is surveyed and the
 *     outline is the rectangle around it that is upright in the layout
 * @param outlinePx four corners in the pixel frame: lower left, lower right, upper right, upper
 *     left of the upright die
 * @param rotationDeg rotation of the die in the photograph, degrees, positive clockwise as seen;
 *     that of the layout if no edge was found
 * @param widthMm width of the outline; empty without a scale
 * @param heightMm height of the outline; empty without a scale
 * @param areaMm2 area of the die, or of the photograph if no edge was found; empty without a scale
 * @param areaPx the same area in square pixels
 */
public record DieFrame(
    boolean edgeFound,
    List<Point> outlinePx,
    double rotationDeg,
    Optional<Measured> widthMm,
    Optional<Measured> heightMm,
    Optional<Measured> areaMm2,
    double areaPx) {
  /** Copies the list. */
  public DieFrame {
    outlinePx = List.copyOf(outlinePx);
  }
}
