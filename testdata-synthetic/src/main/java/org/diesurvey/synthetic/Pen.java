package org.diesurvey.synthetic;

import java.util.List;

/**
 * Draws in the frame of a block: places it, mirrors and transposes it. Orientation bits: 1 mirror
 * x, 2 mirror y, 4 exchange x and y (applied last).
 */
final class Pen {
  private final Canvas canvas;
  private final double xx;
  private final double xy;
  private final double x0;
  private final double yx;
  private final double yy;
  private final double y0;

  private Pen(Canvas canvas, double xx, double xy, double x0, double yx, double yy, double y0) {
    this.canvas = canvas;
    this.xx = xx;
    this.xy = xy;
    this.x0 = x0;
    this.yx = yx;
    this.yy = yy;
    this.y0 = y0;
  }

  static Pen on(Canvas canvas) {
    return new Pen(canvas, 1, 0, 0, 0, 1, 0);
  }

  /** Pen of a block of local size w x h whose placed upper left corner is (x, y) of this frame. */
  Pen block(double x, double y, double w, double h, int orientation) {
    double mx = (orientation & 1) != 0 ? -1 : 1;
    double my = (orientation & 2) != 0 ? -1 : 1;
    double ox = mx < 0 ? w : 0;
    double oy = my < 0 ? h : 0;
    if ((orientation & 4) != 0) {
      return new Pen(
          canvas,
          xy * mx,
          xx * my,
          x0 + xx * (x + oy) + xy * (y + ox),
          yy * mx,
          yx * my,
          y0 + yx * (x + oy) + yy * (y + ox));
    }
    return new Pen(
        canvas,
        xx * mx,
        xy * my,
        x0 + xx * (x + ox) + xy * (y + oy),
        yx * mx,
        yy * my,
        y0 + yx * (x + ox) + yy * (y + oy));
  }

  Pen at(double x, double y) {
    return block(x, y, 0, 0, 0);
  }

  Canvas canvas() {
    return canvas;
  }

  double pxPerUm() {
    return canvas.pxPerUm;
  }

  /** The rectangle in the die frame. */
  RectUm placed(double x, double y, double w, double h) {
    double ax = x0 + xx * x + xy * y;
    double ay = y0 + yx * x + yy * y;
    double bx = x0 + xx * (x + w) + xy * (y + h);
    double by = y0 + yx * (x + w) + yy * (y + h);
    return new RectUm(Math.min(ax, bx), Math.min(ay, by), Math.abs(bx - ax), Math.abs(by - ay));
  }

  boolean shows(double x, double y, double w, double h) {
    RectUm r = placed(x, y, w, h);
    return canvas.shows(r.xUm(), r.yUm(), r.rightUm(), r.bottomUm());
  }

  void rect(Layer layer, double x, double y, double w, double h, double weight) {
    double ax = x0 + xx * x + xy * y;
    double ay = y0 + yx * x + yy * y;
    double bx = x0 + xx * (x + w) + xy * (y + h);
    double by = y0 + yx * (x + w) + yy * (y + h);
    canvas.add(
        layer,
        Math.min(ax, bx),
        Math.min(ay, by),
        Math.max(ax, bx),
        Math.max(ay, by),
        (float) weight);
  }

  void diffusion(double x, double y, double w, double h) {
    rect(Layer.DIFFUSION, x, y, w, h, 1);
  }

  /** Rectangular ring of diffusion, sides inside the given rectangle. */
  void ring(double x, double y, double w, double h, double line, double weight) {
    if (w < 2 * line || h < 2 * line) {
      return;
    }
    rect(Layer.DIFFUSION, x, y, w, line, weight);
    rect(Layer.DIFFUSION, x, y + h - line, w, line, weight);
    rect(Layer.DIFFUSION, x, y + line, line, h - 2 * line, weight);
    rect(Layer.DIFFUSION, x + w - line, y + line, line, h - 2 * line, weight);
  }

  void label(byte code, double x, double y, double w, double h) {
    canvas.label(code, placed(x, y, w, h));
  }

  /**
   * Draws the shapes at every crossing of the two axes; exact, and independent of the cell count.
   */
  void lattice(List<Shape> shapes, Axis across, double cellW, Axis down, double cellH) {
    boolean turned = xx == 0;
    for (Shape s : shapes) {
      float[] a = profile(across, s.x0(), s.x1(), cellW, turned);
      float[] b = profile(down, s.y0(), s.y1(), cellH, !turned);
      canvas.addProduct(s.layer(), turned ? b : a, turned ? a : b, s.weight());
    }
  }

  private float[] profile(Axis axis, double a, double b, double pitch, boolean vertical) {
    int size = vertical ? canvas.heightPx : canvas.widthPx;
    float[] profile = new float[size];
    double scale = canvas.pxPerUm;
    double sign = vertical ? yx + yy : xx + xy;
    double offset = (vertical ? y0 - canvas.windowUm.yUm() : x0 - canvas.windowUm.xUm()) * scale;
    for (int i = 0; i < axis.count(); i++) {
      double start = axis.start(i, a, b, pitch);
      double p = offset + sign * start * scale;
      double q = offset + sign * (start + b - a) * scale;
      double low = Math.max(0, Math.min(p, q));
      double high = Math.min(size, Math.max(p, q));
      for (int k = (int) low; k < high; k++) {
        profile[k] += (float) (Math.min(high, k + 1) - Math.max(low, k));
      }
    }
    return profile;
  }

  /** Draws each shape once, moved to (x, y). */
  void shapes(List<Shape> shapes, double x, double y) {
    for (Shape s : shapes) {
      rect(s.layer(), x + s.x0(), y + s.y0(), s.x1() - s.x0(), s.y1() - s.y0(), s.weight());
    }
  }
}
