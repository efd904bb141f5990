package org.diesurvey.survey;

import java.util.List;
import java.util.Optional;
import org.diesurvey.quantity.Measured;

/**
 * Where the die lies in the photograph.
 *
 * @param edgeFound whether a die edge was found; if not, the whole photograph is surveyed and the
 *     outline is its frame
 * @param outlinePx four corners in the pixel frame: lower left, lower right, upper right, upper
 *     left of the upright die
 * @param rotationDeg rotation of the die in the photograph, degrees, positive clockwise as seen; 0
 *     if no edge was found
 * @param widthMm die width; empty without a scale
 * @param heightMm die height; empty without a scale
 * @param areaMm2 die area; empty without a scale
 * @param areaPx die area in square pixels
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
