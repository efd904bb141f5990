package org.diesurvey.inspection;

/**
 * How far the grey shifts at every place between two columns (or rows), stretch by stretch along
 * them; what {@link StepScan} found and {@link SeamFinder} judges.
 */
final class StepField {
  private final int places;
  private final float[][] z;
  private final float[][] shift;
  private final float[][] inside;

  /**
   * @param stretches along a column (or row), at least 1
   * @param places columns (or rows) of the photograph; place i lies before column i
   */
  StepField(int stretches, int places) {
    this.places = places;
    z = new float[stretches][places];
    shift = new float[stretches][places];
    inside = new float[stretches][places];
  }

  /**
   * Notes what was seen of one place in one stretch.
   *
   * @param sum of the clamped relative differences
   * @param squares sum of their squares
   * @param in how many differences were inside the clamp
   * @param count of differences, at least 1
   */
  void set(int stretch, int place, double sum, double squares, int in, int count) {
    double share = in / (double) count;
    double mean = sum / count;
    double variance = Math.max(1e-9, squares / count - mean * mean);
    // Neighbouring pixels see the same blur and layout: two of them count as one.
    double error = Math.sqrt(2 * variance / count);
    // Clamped pixels do not follow a shift, so the mean of all moves by the share inside only.
    double free = Math.max(0.1, share);
    z[stretch][place] = (float) (mean / error);
    shift[stretch][place] = (float) (mean / free);
    inside[stretch][place] = (float) share;
  }

  int places() {
    return places;
  }

  int stretches() {
    return z.length;
  }

  /** Shift over its standard error. */
  float z(int stretch, int place) {
    return z[stretch][place];
  }

  /** Relative shift of grey, right over left (or lower over upper). */
  float shift(int stretch, int place) {
    return shift[stretch][place];
  }

  /** Share of the pixels whose difference is as small as usual in the stretch. */
  float inside(int stretch, int place) {
    return inside[stretch][place];
  }
}
