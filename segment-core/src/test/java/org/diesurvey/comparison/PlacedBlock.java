package org.diesurvey.comparison;

import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.Orientation;

/**
 * A block of a survey made up for tests, um in the die frame.
 *
 * @param dieClass its class
 * @param x left side
 * @param y lower side
 * @param width of the block
 * @param height of the block
 */
public record PlacedBlock(DieClass dieClass, double x, double y, double width, double height) {
  /** The block as it lies on a die that was turned or mirrored. */
  public PlacedBlock laid(Orientation o, double dieW, double dieH, double newW, double newH) {
    double cx = x + width / 2 - dieW / 2;
    double cy = y + height / 2 - dieH / 2;
    double u = o.xx() * cx + o.xy() * cy + newW / 2;
    double v = o.yx() * cx + o.yy() * cy + newH / 2;
    double w = o.swapsSides() ? height : width;
    double h = o.swapsSides() ? width : height;
    return new PlacedBlock(dieClass, u - w / 2, v - h / 2, w, h);
  }
}
