package org.diesurvey.estimates;

/**
 * An area and how uncertain its edge makes it; the scale's part is common to the die and kept
 * apart.
 *
 * @param um2 area in um2, above 0
 * @param edgeRelative standard uncertainty from the place of the outline over the area, 0 or more
 */
public record BlockArea(double um2, double edgeRelative) {
  /** Rejects areas that are not positive. */
  public BlockArea {
    if (!(um2 > 0) || !(edgeRelative >= 0) || Double.isInfinite(um2 + edgeRelative)) {
      throw new IllegalArgumentException(
          "needs an area > 0 um2 and a relative uncertainty >= 0, were "
              + um2
              + ", "
              + edgeRelative);
    }
  }
}
