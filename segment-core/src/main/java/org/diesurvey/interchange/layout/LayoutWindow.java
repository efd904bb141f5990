package org.diesurvey.interchange.layout;

/**
 * A part of a layout, um in the coordinates of its structure, y up.
 *
 * @param left smallest x
 * @param low smallest y
 * @param right largest x, beyond left
 * @param high largest y, beyond low
 */
public record LayoutWindow(double left, double low, double right, double high) {
  /** Rejects a window without inside. */
  public LayoutWindow {
    if (!(right > left
        && high > low
        && Double.isFinite(right - left)
        && Double.isFinite(high - low))) {
      throw new IllegalArgumentException(
          "no inside: " + left + "," + low + "," + right + "," + high);
    }
  }

  double width() {
    return right - left;
  }

  double height() {
    return high - low;
  }
}
