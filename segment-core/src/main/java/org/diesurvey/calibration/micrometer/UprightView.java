package org.diesurvey.calibration.micrometer;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.ImageFilters;

/**
 * The photograph turned so that lines of one direction run from top to bottom: u to the right is
 * across the lines, v down is along them; one step is one pixel of the photograph.
 */
final class UprightView {
  /** Rows next to the photo's rim that are not used, px: interpolation reaches that far. */
  private static final double RIM_PX = 2;

  private final GrayRaster raster;
  private final double acrossDeg;
  private final PlaneTransform toPhoto;
  private final PlaneTransform fromPhoto;
  private final int photoWidth;
  private final int photoHeight;
  private final boolean inverted;

  /**
   * @param acrossDeg direction across the lines, degrees clockwise from the x axis
   */
  UprightView(GrayRaster photo, double acrossDeg) {
    this.acrossDeg = acrossDeg;
    photoWidth = photo.width();
    photoHeight = photo.height();
    inverted = false;
    double c = Math.cos(Math.toRadians(acrossDeg));
    double s = Math.sin(Math.toRadians(acrossDeg));
    int w = (int) Math.ceil(photoWidth * Math.abs(c) + photoHeight * Math.abs(s));
    int h = (int) Math.ceil(photoWidth * Math.abs(s) + photoHeight * Math.abs(c));
    double x0 = photoWidth / 2.0 - c * w / 2 + s * h / 2;
    double y0 = photoHeight / 2.0 - s * w / 2 - c * h / 2;
    toPhoto = new PlaneTransform(c, -s, x0, s, c, y0);
    fromPhoto = toPhoto.inverse();
    raster = ImageFilters.warp(photo, toPhoto, w, h);
  }

  private UprightView(UprightView other) {
    raster = other.raster;
    acrossDeg = other.acrossDeg;
    toPhoto = other.toPhoto;
    fromPhoto = other.fromPhoto;
    photoWidth = other.photoWidth;
    photoHeight = other.photoHeight;
    inverted = !other.inverted;
  }

  /** The same view with bright and dark exchanged. */
  UprightView inverted() {
    return new UprightView(this);
  }

  int width() {
    return raster.width();
  }

  int height() {
    return raster.height();
  }

  double acrossDeg() {
    return acrossDeg;
  }

  /** Mean grey of rows v0 to v1 (not included) for columns u0 to u1 (not included). */
  double[] profile(int v0, int v1, int u0, int u1) {
    double[] mean = new double[Math.max(0, u1 - u0)];
    float[] grey = raster.array();
    for (int v = v0; v < v1; v++) {
      int row = v * raster.width() + u0;
      for (int i = 0; i < mean.length; i++) {
        mean[i] += grey[row + i];
      }
    }
    for (int i = 0; i < mean.length; i++) {
      mean[i] = inverted ? 1 - mean[i] / (v1 - v0) : mean[i] / (v1 - v0);
    }
    return mean;
  }

  /** The place in the photograph, px. */
  PixelPoint inPhoto(double u, double v) {
    return new PixelPoint(toPhoto.x(u, v), toPhoto.y(u, v));
  }

  /** The place in this view of a place in the photograph: x is u, y is v. */
  PixelPoint fromPhoto(double x, double y) {
    return new PixelPoint(fromPhoto.x(x, y), fromPhoto.y(x, y));
  }

  /** Whether a place is in the photograph, away from its rim. */
  boolean inside(double u, double v) {
    double x = toPhoto.x(u, v);
    double y = toPhoto.y(u, v);
    return x >= RIM_PX && y >= RIM_PX && x <= photoWidth - RIM_PX && y <= photoHeight - RIM_PX;
  }

  /** Columns of rows v0 to v1 (not included) that lie in the photograph: first and last + 1. */
  int[] columns(int v0, int v1) {
    double low = 0;
    double high = raster.width();
    for (double v : new double[] {v0 + 0.5, v1 - 0.5}) {
      // The photo is convex, so the part of a row inside it is one interval.
      double[] ends = {low, high};
      clip(ends, toPhoto.a(), toPhoto.b() * v + toPhoto.c(), photoWidth);
      clip(ends, toPhoto.d(), toPhoto.e() * v + toPhoto.f(), photoHeight);
      low = ends[0];
      high = ends[1];
    }
    int first = (int) Math.ceil(low);
    return new int[] {first, Math.max(first, (int) Math.floor(high))};
  }

  /** Keeps the u for which a u + b lies between the rim and the size less the rim. */
  private static void clip(double[] ends, double a, double b, double size) {
    if (Math.abs(a) < 1e-9) {
      if (b < RIM_PX || b > size - RIM_PX) {
        ends[1] = ends[0];
      }
      return;
    }
    double p = (RIM_PX - b) / a;
    double q = (size - RIM_PX - b) / a;
    ends[0] = Math.max(ends[0], Math.min(p, q));
    ends[1] = Math.min(ends[1], Math.max(p, q));
  }
}
