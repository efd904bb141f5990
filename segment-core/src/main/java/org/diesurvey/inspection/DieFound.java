package org.diesurvey.inspection;

import java.util.List;
import org.diesurvey.raster.PixelPoint;

/**
 * Where the die is in the photograph.
 *
 * @param edgeFound whether its edge was found; else the whole photograph is looked at
 * @param cornersPx upper left, upper right, lower right, lower left of the upright die
 * @param rotationDeg of the die, or of the layout without an edge; positive clockwise as seen
 * @param widthPx length of the upper edge
 * @param heightPx length of the left edge
 */
public record DieFound(
    boolean edgeFound,
    List<PixelPoint> cornersPx,
    double rotationDeg,
    double widthPx,
    double heightPx) {
  /** Copies the list. */
  public DieFound {
    cornersPx = List.copyOf(cornersPx);
  }
}
