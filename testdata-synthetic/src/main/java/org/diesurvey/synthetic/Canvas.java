package org.diesurvey.synthetic;

import java.util.Arrays;

/**
 * Coverage planes and labels of a window of the die, sampled in the die frame.
 *
 * <p>Shapes add their exact area coverage per pixel; a plane may exceed 1 where shapes overlap and
 * is clamped when the picture is composed.
 */
final class Canvas {
  final int widthPx;
  final int heightPx;
  final double pxPerUm;
  final RectUm windowUm;
  private final float[][] planes;
  private final byte[] labels;
  private final boolean[] muted = new boolean[Layer.values().length];

  Canvas(RectUm windowUm, double pxPerUm) {
    this.windowUm = windowUm;
    this.pxPerUm = pxPerUm;
    this.widthPx = (int) StrictMath.ceil(windowUm.widthUm() * pxPerUm);
    this.heightPx = (int) StrictMath.ceil(windowUm.heightUm() * pxPerUm);
    this.planes = new float[Layer.values().length][];
    this.labels = new byte[widthPx * heightPx];
  }

  /** The plane, made when first asked for. */
  float[] plane(Layer layer) {
    int i = layer.ordinal();
    if (planes[i] == null) {
      planes[i] = new float[widthPx * heightPx];
    }
    return planes[i];
  }

  /** From now on shapes of this layer are left out: it does not show. */
  void mute(Layer layer) {
    muted[layer.ordinal()] = true;
  }

  boolean muted(Layer layer) {
    return muted[layer.ordinal()];
  }

  boolean has(Layer layer) {
    return planes[layer.ordinal()] != null;
  }

  byte[] labels() {
    return labels;
  }

  double columnOf(double xUm) {
    return (xUm - windowUm.xUm()) * pxPerUm;
  }

  double rowOf(double yUm) {
    return (yUm - windowUm.yUm()) * pxPerUm;
  }

  boolean shows(double x0Um, double y0Um, double x1Um, double y1Um) {
    return x1Um > windowUm.xUm()
        && x0Um < windowUm.rightUm()
        && y1Um > windowUm.yUm()
        && y0Um < windowUm.bottomUm();
  }

  /** Adds a rectangle given by two opposite corners, x0 below x1 and y0 below y1. */
  void add(Layer layer, double x0Um, double y0Um, double x1Um, double y1Um, float weight) {
    if (muted[layer.ordinal()]) {
      return;
    }
    double left = Math.max(0, columnOf(x0Um));
    double right = Math.min(widthPx, columnOf(x1Um));
    double top = Math.max(0, rowOf(y0Um));
    double bottom = Math.min(heightPx, rowOf(y1Um));
    if (!(right > left && bottom > top)) {
      return;
    }
    float[] plane = plane(layer);
    int firstColumn = (int) left;
    int lastColumn = Math.min(widthPx - 1, (int) right);
    int firstRow = (int) top;
    int lastRow = Math.min(heightPx - 1, (int) bottom);
    for (int row = firstRow; row <= lastRow; row++) {
      double rowShare = Math.min(bottom, row + 1) - Math.max(top, row);
      float rowWeight = (float) (rowShare * weight);
      int at = row * widthPx;
      if (firstColumn == lastColumn) {
        plane[at + firstColumn] += (float) (rowWeight * (right - left));
        continue;
      }
      plane[at + firstColumn] += (float) (rowWeight * (firstColumn + 1 - left));
      for (int column = firstColumn + 1; column < lastColumn; column++) {
        plane[at + column] += rowWeight;
      }
      plane[at + lastColumn] += (float) (rowWeight * (right - lastColumn));
    }
  }

  /** Adds the outer product of two coverage profiles, each as long as the canvas side. */
  void addProduct(Layer layer, float[] columns, float[] rows, float weight) {
    if (muted[layer.ordinal()]) {
      return;
    }
    int first = 0;
    int last = widthPx - 1;
    while (first <= last && columns[first] == 0) {
      first++;
    }
    while (last >= first && columns[last] == 0) {
      last--;
    }
    if (first > last) {
      return;
    }
    float[] plane = plane(layer);
    for (int row = 0; row < heightPx; row++) {
      float rowWeight = rows[row] * weight;
      if (rowWeight == 0) {
        continue;
      }
      int at = row * widthPx;
      for (int column = first; column <= last; column++) {
        plane[at + column] += rowWeight * columns[column];
      }
    }
  }

  /** Takes everything drawn so far out of a rectangle. */
  void clear(RectUm rect) {
    int left = clamp((int) StrictMath.round(columnOf(rect.xUm())), widthPx);
    int right = clamp((int) StrictMath.round(columnOf(rect.rightUm())), widthPx);
    int top = clamp((int) StrictMath.round(rowOf(rect.yUm())), heightPx);
    int bottom = clamp((int) StrictMath.round(rowOf(rect.bottomUm())), heightPx);
    for (float[] plane : planes) {
      for (int row = top; plane != null && row < bottom; row++) {
        Arrays.fill(plane, row * widthPx + left, row * widthPx + Math.max(left, right), 0);
      }
    }
  }

  /** Labels the pixels whose centres lie inside the rectangle. */
  void label(byte code, double x0Um, double y0Um, double x1Um, double y1Um) {
    int left = clamp((int) StrictMath.ceil(columnOf(x0Um) - 0.5), widthPx);
    int right = clamp((int) StrictMath.ceil(columnOf(x1Um) - 0.5), widthPx);
    int top = clamp((int) StrictMath.ceil(rowOf(y0Um) - 0.5), heightPx);
    int bottom = clamp((int) StrictMath.ceil(rowOf(y1Um) - 0.5), heightPx);
    for (int row = top; row < bottom; row++) {
      Arrays.fill(labels, row * widthPx + left, row * widthPx + Math.max(left, right), code);
    }
  }

  void label(byte code, RectUm rect) {
    label(code, rect.xUm(), rect.yUm(), rect.rightUm(), rect.bottomUm());
  }

  private static int clamp(int value, int high) {
    return Math.max(0, Math.min(high, value));
  }
}
