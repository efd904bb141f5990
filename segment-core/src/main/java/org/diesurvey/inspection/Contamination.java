package org.diesurvey.inspection;

import java.util.List;
import org.diesurvey.raster.PixelRect;

/**
 * What hides the layer, as shares of the die (of the photograph where no die edge was found).
 *
 * @param darkShare dust, burns: far darker than the layer
 * @param brightShare residue of upper metal, glare: far brighter than the layer
 * @param spotCount how many spots
 * @param spots the largest of them, largest first
 */
public record Contamination(double darkShare, double brightShare, int spotCount, List<Spot> spots) {
  /**
   * @param boundsPx smallest rectangle around it, in the photograph
   * @param areaPx square pixels of the photograph
   * @param bright brighter than the layer, else darker
   */
  public record Spot(PixelRect boundsPx, long areaPx, boolean bright) {}

  /** Copies the list. */
  public Contamination {
    spots = List.copyOf(spots);
  }

  /** Both together. */
  public double share() {
    return darkShare + brightShare;
  }
}
