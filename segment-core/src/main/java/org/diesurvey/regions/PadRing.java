package org.diesurvey.regions;

/**
 * Depth of the pad ring on each side of the upright die, in px of the upright raster; 0 where a
 * side has none.
 *
 * @param left from the left die edge to the inner edge of the I/O cells
 * @param top from the upper die edge
 * @param right from the right die edge
 * @param bottom from the lower die edge
 */
public record PadRing(double left, double top, double right, double bottom) {
  /** No ring at all. */
  public static final PadRing NONE = new PadRing(0, 0, 0, 0);

  /** Whether any side has I/O cells. */
  public boolean present() {
    return left + top + right + bottom > 0;
  }
}
