package org.diesurvey.inspection;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Blur of the edges over the field on a coarse grid, as the standard deviation of a Gaussian in px.
 * Below about one pixel the figure also depends on how fine the layout is; above, it is the blur.
 *
 * @param columns of the grid
 * @param rows of the grid
 * @param blurPx row by row from the top left, columns x rows values; empty off the die and where no
 *     edge stands out of the noise
 * @param medianPx median of all values
 * @param tilt what side is out of focus against the opposite one, if any
 * @param softCorners corners out of focus against the middle, without those of a tilt
 */
public record FocusMap(
    int columns,
    int rows,
    List<OptionalDouble> blurPx,
    OptionalDouble medianPx,
    Optional<Tilt> tilt,
    List<SoftCorner> softCorners) {
  /** A side of the field, as seen. */
  public enum Side {
    LEFT,
    RIGHT,
    TOP,
    BOTTOM
  }

  /** A corner of the field, as seen. */
  public enum Corner {
    TOP_LEFT,
    TOP_RIGHT,
    BOTTOM_LEFT,
    BOTTOM_RIGHT
  }

  /**
   * @param softSide the side out of focus
   * @param softPx median blur there
   * @param sharpPx median blur at the opposite side
   */
  public record Tilt(Side softSide, double softPx, double sharpPx) {}

  /**
   * @param corner the corner out of focus
   * @param softPx median blur there
   * @param middlePx median blur in the middle
   */
  public record SoftCorner(Corner corner, double softPx, double middlePx) {}

  /** Copies the lists. */
  public FocusMap {
    blurPx = List.copyOf(blurPx);
    softCorners = List.copyOf(softCorners);
    if (blurPx.size() != columns * rows) {
      throw new IllegalArgumentException(
          blurPx.size() + " values for " + columns + " x " + rows + " cells");
    }
  }
}
