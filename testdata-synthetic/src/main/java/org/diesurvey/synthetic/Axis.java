package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/** Positions of repeated cells along one direction; cells may be mirrored one by one. */
final class Axis {
  private final double[] origins;
  private final boolean[] mirrored;
  private final List<Double> straps;
  private final double length;

  private Axis(double[] origins, boolean[] mirrored, List<Double> straps, double length) {
    this.origins = origins;
    this.mirrored = mirrored;
    this.straps = List.copyOf(straps);
    this.length = length;
  }

  static Axis plain(int count, double pitch) {
    return strapped(count, pitch, false, 0, 0);
  }

  /**
   * Cells in a line with a strap after every so many.
   *
   * @param every cells between straps; 0 for none
   * @param mirror every second cell mirrored
   */
  static Axis strapped(int count, double pitch, boolean mirror, int every, double strapWidth) {
    return seamed(count, pitch, mirror, every, strapWidth, 0, 0);
  }

  /**
   * The same with a wider gap, a seam between sub-arrays, after every so many cells.
   *
   * @param seamEvery cells between seams; 0 for none
   */
  static Axis seamed(
      int count,
      double pitch,
      boolean mirror,
      int every,
      double strapWidth,
      int seamEvery,
      double seamWidth) {
    double[] origins = new double[count];
    boolean[] mirrored = new boolean[count];
    List<Double> straps = new ArrayList<>();
    double at = 0;
    for (int i = 0; i < count; i++) {
      if (seamEvery > 0 && i > 0 && i % seamEvery == 0) {
        at += seamWidth;
      } else if (every > 0 && i > 0 && i % every == 0) {
        straps.add(at);
        at += strapWidth;
      }
      origins[i] = at;
      mirrored[i] = mirror && (i & 1) == 1;
      at += pitch;
    }
    return new Axis(origins, mirrored, straps, at);
  }

  static Axis single(double at, double pitch) {
    return new Axis(new double[] {at}, new boolean[1], List.of(), at + pitch);
  }

  static Axis at(List<Double> positions, double pitch) {
    double[] origins = positions.stream().mapToDouble(Double::doubleValue).toArray();
    return new Axis(origins, new boolean[origins.length], List.of(), pitch);
  }

  /** Cells at these places, every second one mirrored. */
  static Axis folded(List<Double> positions, double pitch) {
    double[] origins = positions.stream().mapToDouble(Double::doubleValue).toArray();
    boolean[] mirrored = new boolean[origins.length];
    for (int i = 1; i < mirrored.length; i += 2) {
      mirrored[i] = true;
    }
    return new Axis(origins, mirrored, List.of(), pitch);
  }

  /** The same cells, moved. */
  Axis moved(double by) {
    double[] moved = origins.clone();
    for (int i = 0; i < moved.length; i++) {
      moved[i] += by;
    }
    List<Double> movedStraps = straps.stream().map(s -> s + by).toList();
    return new Axis(moved, mirrored, movedStraps, length + by);
  }

  int count() {
    return origins.length;
  }

  double origin(int i) {
    return origins[i];
  }

  /** Start of the interval a..b of cell i with this pitch, mirrored where the cell is. */
  double start(int i, double a, double b, double pitch) {
    return origins[i] + (mirrored[i] ? pitch - b : a);
  }

  List<Double> straps() {
    return straps;
  }

  double length() {
    return length;
  }
}
