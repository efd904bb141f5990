package org.diesurvey.synthetic;

/**
 * A photo put together from frames: each a little shifted, brighter or darker, and shaded at its
 * rim.
 */
final class Stitching {
  private final int frame;
  private final int columns;
  private final double[] dx;
  private final double[] dy;
  private final double[] gain;
  private final double shade;

  Stitching(Optics optics, Dice dice, int w, int h) {
    this.frame = optics.framePx() > 0 ? optics.framePx() : Integer.MAX_VALUE;
    this.columns = optics.framePx() > 0 ? w / frame + 1 : 1;
    int count = optics.framePx() > 0 ? columns * (h / frame + 1) : 1;
    dx = new double[count];
    dy = new double[count];
    gain = new double[count];
    shade = optics.framePx() > 0 ? dice.uniform(0, 0.03) : 0;
    for (int i = 0; i < count; i++) {
      dx[i] = optics.framePx() > 0 ? optics.seamShiftPx() * dice.uniform(-0.5, 0.5) : 0;
      dy[i] = optics.framePx() > 0 ? optics.seamShiftPx() * dice.uniform(-0.5, 0.5) : 0;
      gain[i] = optics.framePx() > 0 ? 1 + optics.seamGain() * dice.normal() : 1;
    }
  }

  private int index(int x, int y) {
    return (y / frame) * columns + x / frame;
  }

  int endOfFrame(int x) {
    return frame == Integer.MAX_VALUE ? Integer.MAX_VALUE : (x / frame + 1) * frame;
  }

  double shiftX(int x, int y) {
    return dx[index(x, y)];
  }

  double shiftY(int x, int y) {
    return dy[index(x, y)];
  }

  void gains(float[] photo, int w, int h) {
    if (frame == Integer.MAX_VALUE) {
      return;
    }
    for (int y = 0; y < h; y++) {
      float fy = (float) (y % frame) / frame - 0.5f;
      for (int x = 0; x < w; x++) {
        float fx = (float) (x % frame) / frame - 0.5f;
        float g = (float) gain[index(x, y)];
        photo[y * w + x] *= g * (1 - (float) shade * 2 * (fx * fx + fy * fy));
      }
    }
  }
}
