package org.diesurvey.inspection;

import org.diesurvey.raster.Axis;

/**
 * A stripe of the photograph that shows the same place as the stripe before it, as where two fields
 * were put side by side without taking their overlap out.
 *
 * @param along the axis it runs along
 * @param placePx first column (along x: row) of the repetition
 * @param widthPx how wide the repeated stripe is
 * @param likeness correlation of the fine detail of both stripes, 0 to 1
 */
public record RepeatedStrip(Axis along, int placePx, int widthPx, double likeness) {}
