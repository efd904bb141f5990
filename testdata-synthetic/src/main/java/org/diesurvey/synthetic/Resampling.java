package org.diesurvey.synthetic;

/** Turns the canvas into the photo's frame. */
final class Resampling {
  private Resampling() {}

  static byte[] labels(Canvas canvas, UmToPx map, int w, int h) {
    byte[] out = new byte[w * h];
    byte[] in = canvas.labels();
    nearest(canvas, map, w, h, (to, from) -> out[to] = in[from]);
    return out;
  }

  /** Sets {@code hidden} to 1 where the layer covers at least half of a pixel. */
  static void covered(Canvas canvas, Layer layer, UmToPx map, byte[] hidden, int w, int h) {
    float[] plane = canvas.plane(layer);
    nearest(
        canvas,
        map,
        w,
        h,
        (to, from) -> {
          if (plane[from] >= 0.5f) {
            hidden[to] = 1;
          }
        });
  }

  private interface Transfer {
    void pixel(int to, int from);
  }

  private static void nearest(Canvas canvas, UmToPx map, int w, int h, Transfer transfer) {
    for (int y = 0; y < h; y++) {
      PointUm first = map.pointUm(0.5, y + 0.5);
      PointUm second = map.pointUm(1.5, y + 0.5);
      double u = canvas.columnOf(first.xUm());
      double v = canvas.rowOf(first.yUm());
      double du = (second.xUm() - first.xUm()) * canvas.pxPerUm;
      double dv = (second.yUm() - first.yUm()) * canvas.pxPerUm;
      for (int x = 0; x < w; x++) {
        double cu = u + x * du;
        double cv = v + x * dv;
        if (cu >= 0 && cv >= 0 && cu < canvas.widthPx && cv < canvas.heightPx) {
          transfer.pixel(y * w + x, (int) cv * canvas.widthPx + (int) cu);
        }
      }
    }
  }

  /**
   * Cubic convolution with a = -0.5 (Keys 1981, IEEE Trans. ASSP 29, 1153; coefficients from
   * memory), weights from a table of 256 phases.
   */
  static void cubic(
      float[] in,
      Canvas canvas,
      UmToPx map,
      Stitching stitching,
      float[] out,
      int w,
      int h,
      double outside) {
    float[] table = table();
    int cw = canvas.widthPx;
    int ch = canvas.heightPx;
    float off = (float) outside;
    for (int y = 0; y < h; y++) {
      for (int x0 = 0; x0 < w; ) {
        int x1 = Math.min(w, stitching.endOfFrame(x0));
        double px = x0 + 0.5 + stitching.shiftX(x0, y);
        double py = y + 0.5 + stitching.shiftY(x0, y);
        PointUm first = map.pointUm(px, py);
        PointUm second = map.pointUm(px + 1, py);
        double u = canvas.columnOf(first.xUm()) - 0.5;
        double v = canvas.rowOf(first.yUm()) - 0.5;
        double du = (second.xUm() - first.xUm()) * canvas.pxPerUm;
        double dv = (second.yUm() - first.yUm()) * canvas.pxPerUm;
        for (int x = x0; x < x1; x++) {
          double cu = u + (x - x0) * du;
          double cv = v + (x - x0) * dv;
          if (cu < 1 || cv < 1 || cu >= cw - 2 || cv >= ch - 2) {
            out[y * w + x] = off;
            continue;
          }
          int i = (int) cu;
          int j = (int) cv;
          int tu = (int) ((cu - i) * 256) * 4;
          int tv = (int) ((cv - j) * 256) * 4;
          float a0 = table[tu];
          float a1 = table[tu + 1];
          float a2 = table[tu + 2];
          float a3 = table[tu + 3];
          int at = (j - 1) * cw + i - 1;
          float sum = 0;
          for (int r = 0; r < 4; r++) {
            sum +=
                table[tv + r] * (a0 * in[at] + a1 * in[at + 1] + a2 * in[at + 2] + a3 * in[at + 3]);
            at += cw;
          }
          out[y * w + x] = Math.max(0, sum);
        }
        x0 = x1;
      }
    }
  }

  private static float[] table() {
    float[] table = new float[257 * 4];
    for (int p = 0; p <= 256; p++) {
      double t = p / 256.0;
      table[4 * p] = (float) (-0.5 * t + t * t - 0.5 * t * t * t);
      table[4 * p + 1] = (float) (1 - 2.5 * t * t + 1.5 * t * t * t);
      table[4 * p + 2] = (float) (0.5 * t + 2 * t * t - 1.5 * t * t * t);
      table[4 * p + 3] = (float) (-0.5 * t * t + 0.5 * t * t * t);
    }
    return table;
  }
}
