package org.diesurvey.synthetic;

/** Rectangle of one layer inside a cell, um from the cell's upper left corner. */
record Shape(Layer layer, double x0, double y0, double x1, double y1, float weight) {
  static Shape diffusion(double x, double y, double w, double h) {
    return new Shape(Layer.DIFFUSION, x, y, x + w, y + h, 1f);
  }

  static Shape poly(double x, double y, double w, double h) {
    return new Shape(Layer.POLY, x, y, x + w, y + h, 1f);
  }

  static Shape contact(double x, double y, double size) {
    return new Shape(Layer.CONTACT, x, y, x + size, y + size, 1f);
  }

  static Shape well(double x, double y, double w, double h, double weight) {
    return new Shape(Layer.WELL, x, y, x + w, y + h, (float) weight);
  }
}
