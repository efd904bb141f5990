package org.diesurvey.survey;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;

/**
 * Where the die lies in the photograph.
 *
 * @param realEdges the sides on which the die's edge was seen, clockwise from the upper one. All
 *     four: a whole die. Some: the photograph cuts the die, areas and shares are of its visible
 *     part. None: no die edge was found and the whole photograph is surveyed
 * @param outlinePx four corners in the pixel frame: lower left, lower right, upper right, upper
 *     left of the upright rectangle around the die or its visible part; beyond sides that are not
 *     real they may lie outside the photograph
 * @param rotationDeg rotation of the die in the photograph, degrees, positive clockwise as seen;
 *     that of the layout if no edge was found
 * @param widthMm width of the outline; empty without a scale
 * @param heightMm height of the outline; empty without a scale
 * @param areaMm2 area of the die, of its visible part, or of the photograph if no edge was found;
 *     empty without a scale
 * @param areaPx the same area in square pixels
 */
@Supported
public record DieFrame(
    List<DieSide> realEdges,
    List<Point> outlinePx,
    double rotationDeg,
    Optional<Measured> widthMm,
    Optional<Measured> heightMm,
    Optional<Measured> areaMm2,
    double areaPx) {
  /** Copies the list. */
  public DieFrame {
    realEdges = List.copyOf(realEdges);
    outlinePx = List.copyOf(outlinePx);
  }

  /** A frame of which all edges are real, or none. */
  public DieFrame(
      boolean edgeFound,
      List<Point> outlinePx,
      double rotationDeg,
      Optional<Measured> widthMm,
      Optional<Measured> heightMm,
      Optional<Measured> areaMm2,
      double areaPx) {
    this(
        edgeFound ? List.of(DieSide.values()) : List.of(),
        outlinePx,
        rotationDeg,
        widthMm,
        heightMm,
        areaMm2,
        areaPx);
  }

  /** Whether the die is seen with all its four edges. */
  public boolean edgeFound() {
    return realEdges.size() == DieSide.values().length;
  }

  /** Whether the photograph cuts the die: some edges are real, not all. */
  public boolean partial() {
    return !realEdges.isEmpty() && !edgeFound();
  }
}
