package org.diesurvey.synthetic;

/**
 * A part of a layer mask brought to the sampling of a canvas: exact area coverage of each layer,
 * ready to be set down in any orientation.
 */
final class LayoutStamp {
  private static final int PLANES = 4;
  private static final Layer[] LAYERS = {Layer.DIFFUSION, Layer.POLY, Layer.CONTACT, Layer.WELL};

  private final int width;
  private final int height;
  private final float[][] planes;

  /**
   * How the broad layers of a process show, as weights of {@link Layer#WELL}.
   *
   * @param nWell of the well
   * @param pImplant of diffusion in it against other diffusion
   * @param thickOxide of the marker of thick oxide
   */
  record Tones(double nWell, double pImplant, double thickOxide) {
    static Tones draw(Dice d) {
      return new Tones(
          d.chance(0.3) ? 0 : d.uniform(-1, 1),
          d.chance(0.4) ? 0 : d.uniform(-0.8, 0.8),
          d.chance(0.6) ? 0 : d.uniform(-0.6, 0.6));
    }
  }

  private LayoutStamp(int width, int height) {
    this.width = width;
    this.height = height;
    this.planes = new float[PLANES][width * height];
  }

  /**
   * @param part of the block, um of the layout
   * @param pxPerMaskPx canvas pixels for each pixel of the mask
   */
  static LayoutStamp of(
      LayoutMask mask, double umPerPx, RectUm part, double pxPerMaskPx, Tones tones) {
    int left = clamp((int) Math.round(part.xUm() / umPerPx), mask.width);
    int right = clamp((int) Math.round(part.rightUm() / umPerPx), mask.width);
    int top = clamp((int) Math.round(part.yUm() / umPerPx), mask.height);
    int bottom = clamp((int) Math.round(part.bottomUm() / umPerPx), mask.height);
    LayoutStamp stamp =
        new LayoutStamp(
            Math.max(1, (int) StrictMath.ceil((right - left) * pxPerMaskPx)),
            Math.max(1, (int) StrictMath.ceil((bottom - top) * pxPerMaskPx)));
    float[][] tone = tone(tones);
    float[][] row = new float[PLANES][stamp.width];
    for (int y = top; y < bottom; y++) {
      for (float[] plane : row) {
        java.util.Arrays.fill(plane, 0);
      }
      stamp.reduce(mask, y, left, right, pxPerMaskPx, tone, row);
      double from = (y - top) * pxPerMaskPx;
      stamp.add(row, from, from + pxPerMaskPx);
    }
    return stamp;
  }

  /** What each value of a mask adds to each plane. */
  private static float[][] tone(Tones tones) {
    float[][] out = new float[64][PLANES];
    for (int v = 0; v < out.length; v++) {
      boolean diffusion = (v & LayoutMask.DIFFUSION) != 0;
      out[v][0] = diffusion ? 1 : 0;
      out[v][1] = (v & LayoutMask.POLY) != 0 ? 1 : 0;
      out[v][2] = (v & LayoutMask.CONTACT) != 0 ? 1 : 0;
      out[v][3] =
          (float)
              (((v & LayoutMask.N_WELL) != 0 ? tones.nWell() : 0)
                  + (diffusion && (v & LayoutMask.P_IMPLANT) != 0 ? tones.pImplant() : 0)
                  + ((v & LayoutMask.THICK_OXIDE) != 0 ? tones.thickOxide() : 0));
    }
    return out;
  }

  /** One row of the mask, summed into the columns of the stamp. */
  private void reduce(
      LayoutMask mask, int y, int left, int right, double step, float[][] tone, float[][] row) {
    for (int x = left; x < right; x++) {
      int v = mask.bits[y * mask.width + x] & 63;
      if (v == 0) {
        continue;
      }
      double from = (x - left) * step;
      double to = Math.min(width, from + step);
      for (int c = (int) from; c < to; c++) {
        float share = (float) (Math.min(to, c + 1) - Math.max(from, c));
        for (int k = 0; k < PLANES; k++) {
          row[k][c] += share * tone[v][k];
        }
      }
    }
  }

  private void add(float[][] row, double from, double to) {
    double end = Math.min(height, to);
    for (int r = (int) from; r < end; r++) {
      float share = (float) (Math.min(end, r + 1) - Math.max(from, r));
      for (int k = 0; k < PLANES; k++) {
        float[] plane = planes[k];
        for (int c = 0; c < width; c++) {
          plane[r * width + c] += share * row[k][c];
        }
      }
    }
  }

  private static int clamp(int value, int high) {
    return Math.max(0, Math.min(high, value));
  }

  int width(int orientation) {
    return (orientation & 4) != 0 ? height : width;
  }

  int height(int orientation) {
    return (orientation & 4) != 0 ? width : height;
  }

  /**
   * Adds the stamp to a canvas.
   *
   * @param at upper left corner in the die frame, um; set on the nearest whole pixel
   * @param orientation as in {@link Pen}
   * @param clip what lies outside is left as it is, um
   */
  void setDown(Canvas canvas, PointUm at, int orientation, RectUm clip) {
    int x0 = (int) StrictMath.round(canvas.columnOf(at.xUm()));
    int y0 = (int) StrictMath.round(canvas.rowOf(at.yUm()));
    int left = clamp((int) StrictMath.round(canvas.columnOf(clip.xUm())), canvas.widthPx);
    int right = clamp((int) StrictMath.round(canvas.columnOf(clip.rightUm())), canvas.widthPx);
    int top = clamp((int) StrictMath.round(canvas.rowOf(clip.yUm())), canvas.heightPx);
    int bottom = clamp((int) StrictMath.round(canvas.rowOf(clip.bottomUm())), canvas.heightPx);
    left = Math.max(left, x0);
    top = Math.max(top, y0);
    right = Math.min(right, x0 + width(orientation));
    bottom = Math.min(bottom, y0 + height(orientation));
    boolean turned = (orientation & 4) != 0;
    int stepX = (orientation & 1) != 0 ? -1 : 1;
    int stepY = (orientation & 2) != 0 ? -width : width;
    int start =
        ((orientation & 1) != 0 ? width - 1 : 0)
            + ((orientation & 2) != 0 ? (height - 1) * width : 0);
    int across = turned ? stepY : stepX;
    int down = turned ? stepX : stepY;
    for (int k = 0; k < PLANES; k++) {
      if (canvas.muted(LAYERS[k])) {
        continue;
      }
      float[] to = canvas.plane(LAYERS[k]);
      float[] from = planes[k];
      for (int y = top; y < bottom; y++) {
        int source = start + (y - y0) * down + (left - x0) * across;
        int target = y * canvas.widthPx + left;
        for (int x = left; x < right; x++) {
          to[target++] += from[source];
          source += across;
        }
      }
    }
  }
}
