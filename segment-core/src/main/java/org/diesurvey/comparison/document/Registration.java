package org.diesurvey.comparison.document;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PlaneTransform;

/**
 * How the second die lies on the first one.
 *
 * @param orientation which of the eight right-angled orientations
 * @param aToB from the die frame of the first die to that of the second, both with origin lower
 *     left, y up, in the comparison's unit (without scales: px of each upright die)
 * @param parts what the map does besides the orientation
 * @param fit how well the map fits
 * @param method how it was found, one sentence
 * @param tried orientations and starts that were tried, best first
 */
@Supported
public record Registration(
    Orientation orientation,
    PlaneTransform aToB,
    Parts parts,
    Fit fit,
    String method,
    List<Trial> tried) {
  /** Copies the list. */
  public Registration {
    tried = List.copyOf(tried);
  }

  /**
   * The map taken apart.
   *
   * @param rotationDeg what is left of rotation besides the orientation, degrees, anticlockwise
   * @param scaleRatio length in the second die over length in the first; 1 if both scales are right
   * @param scaleConflict whether the ratio differs from 1 by more than the stated uncertainties
   *     explain (k = 3)
   * @param shearPercent what differs between the two axes, percent; tilt or distortion
   */
  public record Parts(
      double rotationDeg, Measured scaleRatio, boolean scaleConflict, double shearPercent) {}

  /**
   * How well the map fits.
   *
   * @param residual robust scatter of the local displacements that the map leaves, unit of length:
   *     1.4826 times their median length over root 2, so a standard deviation for one axis
   * @param uncertainty standard uncertainty of a registered place in the middle of the die, one
   *     axis
   * @param places how many places were matched
   * @param agreeing how many of them agree with the map
   * @param commonShare share of the common ground whose structure agrees, 0 to 1
   */
  public record Fit(
      double residual, double uncertainty, int places, int agreeing, double commonShare) {}

  /**
   * One orientation that was tried.
   *
   * @param orientation the orientation
   * @param score height of the best correlation peak, -1 to 1
   * @param scaleRatio scale ratio at that peak
   * @param sentence what came of it; empty if nothing is to be said
   */
  public record Trial(
      Orientation orientation, double score, double scaleRatio, Optional<String> sentence) {}
}
