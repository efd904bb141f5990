package org.diesurvey.estimates;

import org.diesurvey.quantity.Measured;

/**
 * A period found in the texture of a block.
 *
 * @param lengthUm above 0, with the part of its uncertainty that is not the scale's
 * @param alongX whether the pattern repeats along the die's x axis, else along y
 * @param strength height of the autocorrelation peak, 0 to 1
 */
public record TexturePeriod(Measured lengthUm, boolean alongX, double strength) {
  /** Strength below which a period is often of something else than cells; chosen on drawn dies. */
  public static final double LEAST_OF_CELLS = 0.25;

  /** Longer periods than this are those of straps and sub-arrays, not of cells, um. */
  public static final double LONGEST_OF_CELLS_UM = 14;

  /** The same strength for rows. */
  public static final double LEAST_OF_ROWS = 0.15;
}
