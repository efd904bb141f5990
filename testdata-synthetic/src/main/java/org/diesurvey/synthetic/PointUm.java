package org.diesurvey.synthetic;

/**
 * Point in the die frame.
 *
 * @param xUm to the right
 * @param yUm downwards
 */
public record PointUm(double xUm, double yUm) {}
