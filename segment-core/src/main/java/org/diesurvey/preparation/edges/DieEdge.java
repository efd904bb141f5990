package org.diesurvey.preparation.edges;

import java.util.List;
import java.util.Map;
import org.diesurvey.raster.PixelPoint;

/**
 * The die's outline in the photograph, fitted to the edges that are in it.
 *
 * @param realEdges the sides where the die ends; on the others the photograph ends
 * @param corners upper left, upper right, lower right, lower left of the upright die, pixel frame;
 *     where a side is not real they may lie outside the photograph
 * @param rotationDeg angle of the die's upper edge against the photo's rows, positive clockwise as
 *     seen
 * @param widthPx mean length of the upper and lower edges
 * @param heightPx mean length of the left and right edges
 * @param edgeUncertaintyPx standard uncertainty of the place of one edge, from the scatter of the
 *     edge points
 * @param tilted whether opposite edges converge clearly, so that the corners form no rectangle
 * @param skews turn of each side against the die's, radians, positive clockwise as seen
 */
public record DieEdge(
    List<DieSide> realEdges,
    List<PixelPoint> corners,
    double rotationDeg,
    double widthPx,
    double heightPx,
    double edgeUncertaintyPx,
    boolean tilted,
    Map<DieSide, Double> skews) {
  public DieEdge {
    realEdges = List.copyOf(realEdges);
    corners = List.copyOf(corners);
    skews = Map.copyOf(skews);
  }
}
