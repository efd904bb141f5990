package org.diesurvey.quantity;

import org.diesurvey.Supported;

/**
 * An area whose standard uncertainty is known in two parts: that of its outline, which is its own,
 * and that of the scale, which it shares with all areas of the die. Both and the area are in the
 * unit that the holder's name states; the squares of the parts add up to that of the whole (JCGM
 * 100:2008, GUM, 5.1.2: variances of independent parts add).
 *
 * @param joined the area with its whole standard uncertainty, as it is written in documents
 * @param outline part from the place of the outline, 0 or more
 * @param scale part from the scale, 0 or more
 */
@Supported
public record MeasuredArea(Measured joined, double outline, double scale) {
  /** How far the parts may be off the whole, as a share: no more than arithmetic leaves. */
  private static final double ROUNDING = 1e-9;

  /** Rejects negative parts and parts that do not make the whole. */
  public MeasuredArea {
    double whole = joined.standardUncertainty();
    double off = Math.abs(Math.hypot(outline, scale) - whole);
    if (!(outline >= 0) || !(scale >= 0) || !(off <= ROUNDING * whole + Double.MIN_NORMAL)) {
      throw new IllegalArgumentException(
          "needs parts >= 0 that make " + whole + ", were " + outline + ", " + scale);
    }
  }

  /** An area from its parts. */
  public static MeasuredArea of(double value, double outline, double scale) {
    return new MeasuredArea(new Measured(value, Math.hypot(outline, scale)), outline, scale);
  }

  /**
   * An area of which only the whole uncertainty is known, as from a document: what the scale does
   * not explain is the outline's.
   *
   * @param scaleRelative relative standard uncertainty of the pixel pitch, 0 or more; an area has
   *     twice that
   */
  public static MeasuredArea split(Measured joined, double scaleRelative) {
    double whole = joined.standardUncertainty();
    double scale = Math.min(whole, 2 * scaleRelative * Math.abs(joined.value()));
    double share = whole == 0 ? 0 : scale / whole;
    return new MeasuredArea(joined, whole * Math.sqrt((1 - share) * (1 + share)), scale);
  }

  /**
   * Two areas of one die together: their outlines are independent, their scale is the same (GUM,
   * 5.2.2: standard uncertainties of parts that are wholly correlated add).
   */
  public MeasuredArea plus(MeasuredArea other) {
    return of(value() + other.value(), Math.hypot(outline, other.outline), scale + other.scale);
  }

  /** The area. */
  public double value() {
    return joined.value();
  }

  /** Share of the variance that is the scale's, 0 to 1; 0 for an exact area. */
  public double scaleShare() {
    double share = scale == 0 ? 0 : scale / joined.standardUncertainty();
    return Math.min(1, share * share);
  }
}
