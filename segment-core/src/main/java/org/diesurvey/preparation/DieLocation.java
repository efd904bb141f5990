package org.diesurvey.preparation;

import java.util.List;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.Homography;
import org.diesurvey.raster.PixelPoint;

/**
 * Where the photograph's die is, before a working pitch is chosen.
 *
 * @param realEdges sides where the die ends; on the others the photograph does. None: no die edge
 *     was found
 * @param corners upper left, upper right, lower right, lower left of the upright rectangle, pixel
 *     frame; beyond a side that is not real they may lie outside the photograph
 * @param rotationDeg turn of the die, or of the layout, positive clockwise as seen
 * @param edgeUncertaintyPx standard uncertainty of the place of one edge
 * @param tilted whether the corners form no rectangle because the die was tilted
 */
public record DieLocation(
    List<DieSide> realEdges,
    List<PixelPoint> corners,
    double rotationDeg,
    double edgeUncertaintyPx,
    boolean tilted) {
  /** Copies the lists. */
  public DieLocation {
    realEdges = List.copyOf(realEdges);
    corners = List.copyOf(corners);
  }

  /** A rectangle of which all edges are real, or none. */
  public DieLocation(
      boolean edgeFound, List<PixelPoint> corners, double rotationDeg, double edgeUncertaintyPx) {
    this(
        edgeFound ? List.of(DieSide.values()) : List.of(),
        corners,
        rotationDeg,
        edgeUncertaintyPx,
        false);
  }

  /** Whether the die is seen with all its four edges. */
  public boolean edgeFound() {
    return realEdges.size() == DieSide.values().length;
  }

  /** Whether the photograph cuts the die: some edges are real, not all. */
  public boolean partial() {
    return !realEdges.isEmpty() && !edgeFound();
  }

  /**
   * The middle of this frame, for looking at a sample of the layout.
   *
   * @param sidePx longest side, px of the photograph; the frame itself where it is smaller
   */
  public DieLocation middle(double sidePx) {
    double share = Math.min(1, sidePx / Math.max(widthPx(), heightPx()));
    double cx = (corners.get(0).x() + corners.get(2).x()) / 2;
    double cy = (corners.get(0).y() + corners.get(2).y()) / 2;
    List<PixelPoint> inner =
        corners.stream()
            .map(p -> new PixelPoint(cx + share * (p.x() - cx), cy + share * (p.y() - cy)))
            .toList();
    return new DieLocation(List.of(), inner, rotationDeg, edgeUncertaintyPx, tilted);
  }

  /** Width of the die, px of the photograph at the die's middle. */
  public double widthPx() {
    return tilted
        ? Homography.ofRectangle(1, 1, corners).stretchX(0.5, 0.5)
        : distance(corners.get(0), corners.get(1));
  }

  /** Height of the die, px of the photograph at the die's middle. */
  public double heightPx() {
    return tilted
        ? Homography.ofRectangle(1, 1, corners).stretchY(0.5, 0.5)
        : distance(corners.get(0), corners.get(3));
  }

  /** Length of the upper edge against the lower, as a share of their mean; 0 for a rectangle. */
  public double convergenceAcross() {
    return convergence(corners.get(0), corners.get(1), corners.get(3), corners.get(2));
  }

  /** Length of the left edge against the right, as a share of their mean; 0 for a rectangle. */
  public double convergenceDown() {
    return convergence(corners.get(0), corners.get(3), corners.get(1), corners.get(2));
  }

  private static double convergence(PixelPoint a, PixelPoint b, PixelPoint c, PixelPoint d) {
    double first = distance(a, b);
    double second = distance(c, d);
    return 2 * (first - second) / (first + second);
  }

  /**
   * Area of the part of this frame that lies in a photograph, square px; of a whole die its area in
   * the plane of the die.
   */
  public double visibleAreaPx(int photoWidth, int photoHeight) {
    return edgeFound()
        ? widthPx() * heightPx()
        : VisiblePart.areaPx(corners, photoWidth, photoHeight);
  }

  private static double distance(PixelPoint a, PixelPoint b) {
    return Math.hypot(a.x() - b.x(), a.y() - b.y());
  }
}
