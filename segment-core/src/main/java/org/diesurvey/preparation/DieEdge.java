package org.diesurvey.preparation;

import java.util.List;
import org.diesurvey.raster.PixelPoint;

/**
 * The die's outline in the photograph, as a rectangle fitted to its four edges.
 *
 * @param corners upper left, upper right, lower right, lower left of the upright die, pixel frame
 * @param rotationDeg angle of the die's upper edge against the photo's rows, positive clockwise as
 *     seen
 * @param widthPx length of the upper and lower edges
 * @param heightPx length of the left and right edges
 * @param edgeUncertaintyPx standard uncertainty of the place of one edge, from the scatter of the
 *     edge points
 */
record DieEdge(
    List<PixelPoint> corners,
    double rotationDeg,
    double widthPx,
    double heightPx,
    double edgeUncertaintyPx) {
  DieEdge {
    corners = List.copyOf(corners);
  }
}
