package org.diesurvey.measures;

import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;

/**
 * Areas counted in pixels, in mm2 with their standard uncertainty.
 *
 * <p>Model: A = N p^2, where N is the count of square pixels and p the pixel pitch. There is one
 * pitch for both directions, so its relative uncertainty enters twice: (u(A)/A)^2 = (u(N)/N)^2 + (2
 * u(p)/p)^2. With two independent pitches the last term would be 2 (u(p)/p)^2; taking it for one
 * pitch understates the uncertainty by a factor of 1.41. JCGM 100:2008 (GUM) 5.1.2 and 5.2.2
 * (numbering from memory).
 *
 * <p>How uncertain the count is, is for the caller to say; for outlines see {@link RegionMeasures}.
 */
public final class AreaUncertainty {
  private static final double UM2_PER_MM2 = 1e6;

  private AreaUncertainty() {}

  /**
   * Area of a pixel count.
   *
   * @param countPx N with its standard uncertainty, square pixels, value not negative
   * @param umPerPx pixel pitch with its standard uncertainty, um/px, value positive
   * @return area in mm2
   */
  public static MeasuredArea ofCountMm2(Measured countPx, Measured umPerPx) {
    if (countPx.value() < 0 || umPerPx.value() <= 0) {
      throw new IllegalArgumentException(
          "needs a count >= 0 px and a pitch > 0 um/px, were "
              + countPx.value()
              + ", "
              + umPerPx.value());
    }
    double pixelMm2 = umPerPx.value() * umPerPx.value() / UM2_PER_MM2;
    double areaMm2 = countPx.value() * pixelMm2;
    double fromCount = countPx.standardUncertainty() * pixelMm2;
    double fromScale = areaMm2 * scaleTerm(umPerPx);
    return MeasuredArea.of(areaMm2, fromCount, fromScale);
  }

  /**
   * Sum of areas of one die. The pitch is common to all, so its part adds up plainly; the outlines
   * are taken as independent of each other, so their parts add up in squares. A total over many
   * regions is therefore known relatively no better than the scale: twice the relative uncertainty
   * of the pitch is the floor.
   *
   * @param countsPx square pixels of each region with the uncertainty from its outline alone
   * @param umPerPx pixel pitch with its standard uncertainty, um/px
   * @return total area in mm2; 0 for no regions
   */
  public static MeasuredArea totalMm2(Iterable<Measured> countsPx, Measured umPerPx) {
    double count = 0;
    double square = 0;
    for (Measured c : countsPx) {
      count += c.value();
      square += c.standardUncertainty() * c.standardUncertainty();
    }
    return ofCountMm2(new Measured(count, Math.sqrt(square)), umPerPx);
  }

  /**
   * Length of a straight measure, mm: length in pixels times the pitch, both ends independent.
   *
   * @param lengthPx not negative
   * @param edgeUncertaintyPx standard uncertainty of each end, px
   * @param umPerPx pixel pitch with its standard uncertainty, um/px
   */
  public static Measured lengthMm(double lengthPx, double edgeUncertaintyPx, Measured umPerPx) {
    return new Measured(lengthPx, Math.sqrt(2) * edgeUncertaintyPx).times(umPerPx).times(1e-3);
  }

  private static double scaleTerm(Measured umPerPx) {
    return 2 * umPerPx.relativeUncertainty();
  }
}
