package org.diesurvey.inspection;

/**
 * A stripe of the photograph that shows the same place as the stripe before it, as where two fields
 * were put side by side without taking their overlap out.
 *
 * @param vertical whether it runs from top to bottom
 * @param placePx first column (or row) of the repetition
 * @param widthPx how wide the repeated stripe is
 * @param likeness correlation of the fine detail of both stripes, 0 to 1
 */
public record RepeatedStrip(boolean vertical, int placePx, int widthPx, double likeness) {}
