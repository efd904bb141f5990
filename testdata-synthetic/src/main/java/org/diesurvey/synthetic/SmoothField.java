package org.diesurvey.synthetic;

/**
 * Smooth random surface over a picture: uniform quadratic B-spline on a coarse grid of normal
 * draws.
 */
final class SmoothField {
  private final float[] knots;
  private final int columns;
  private final int rows;
  private final double cell;

  /** Knots every {@code cell} px; values have a standard deviation of about 0.6. */
  SmoothField(Dice dice, double width, double height, double cell) {
    this.cell = cell;
    this.columns = (int) (width / cell) + 4;
    this.rows = (int) (height / cell) + 4;
    this.knots = new float[columns * rows];
    for (int i = 0; i < knots.length; i++) {
      knots[i] = (float) dice.normal();
    }
  }

  double at(double x, double y) {
    double u = Math.max(0, x / cell);
    double v = Math.max(0, y / cell);
    int i = Math.min((int) u, columns - 3);
    int j = Math.min((int) v, rows - 3);
    double fu = Math.min(1, u - i);
    double fv = Math.min(1, v - j);
    double a0 = 0.5 * (1 - fu) * (1 - fu);
    double a2 = 0.5 * fu * fu;
    double a1 = 1 - a0 - a2;
    double b0 = 0.5 * (1 - fv) * (1 - fv);
    double b2 = 0.5 * fv * fv;
    double b1 = 1 - b0 - b2;
    return b0 * row(i, j, a0, a1, a2)
        + b1 * row(i, j + 1, a0, a1, a2)
        + b2 * row(i, j + 2, a0, a1, a2);
  }

  private double row(int i, int j, double a0, double a1, double a2) {
    int at = j * columns + i;
    return a0 * knots[at] + a1 * knots[at + 1] + a2 * knots[at + 2];
  }
}
