package org.diesurvey.raster;

/** A map of the plane onto itself, between pixel frames and the die frame. */
public sealed interface PlaneMap permits PlaneTransform, Homography {
  /** The map back. */
  PlaneMap inverse();

  /** x of the mapped point. */
  double x(double x, double y);

  /** y of the mapped point. */
  double y(double x, double y);
}
