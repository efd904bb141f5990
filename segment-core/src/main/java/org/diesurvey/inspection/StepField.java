package org.diesurvey.inspection;

/**
 * How far the grey shifts at every place between two columns (or rows), stretch by stretch along
 * them; what {@link StepScan} found and {@link SeamFinder} judges.
 */
final class StepField {
  private static final double LEAST_INSIDE = 0.4;

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
   * @param wide sum of the differences clamped at a wide limit
   * @param in how many differences were inside the clamp
   * @param count of differences, at least 1
   */
  void set(int stretch, int place, double sum, double squares, double wide, int in, int count) {
    double share = in / (double) count;
    double mean = sum / count;
    double variance = Math.max(1e-9, squares / count - mean * mean);
    // Neighbouring pixels see the same blur and layout: two of them count as one.
    double error = Math.sqrt(2 * variance / count);
    z[stretch][place] = (float) (mean / error);
    // Clamped pixels do not follow a shift: the mean of all moves by the share inside only. A shift
    // beyond the clamp leaves few inside; then it is larger than what the layout does to the mean.
    shift[stretch][place] = (float) (share > LEAST_INSIDE ? mean / share : wide / count);
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

  /**
   * The same over a stretch and its two neighbours together: a seam keeps its sign over a whole
   * field, so there it grows by the root of 3, the layout's mixed edges do not.
   */
  float jointZ(int stretch, int place) {
    float sum = 0;
    int n = 0;
    for (int s = Math.max(0, stretch - 1); s <= Math.min(z.length - 1, stretch + 1); s++) {
      sum += z[s][place];
      n++;
    }
    return sum / (float) Math.sqrt(n);
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
