package org.diesurvey.preparation.edges;

import java.io.IOException;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * A photograph without the brightness of its ground: of each colour only what stands at right
 * angles to the ground's own colour is left. Blotches, dust and shade change how bright a ground
 * is, hardly its hue, so a rough ground becomes even and a die of about its brightness stands out.
 */
final class ChromaResidual implements PixelSource {
  /** Enlarges what is left, which is small, so that 8 bits hold it. */
  static final float GAIN = 4;

  private final PixelSource source;
  private final float[] axis;

  /**
   * @param ground colour whose direction is taken out, red, green, blue from 0 to 1
   */
  ChromaResidual(PixelSource source, float[] ground) {
    this.source = source;
    this.axis = axis(ground);
  }

  /** The colour as a unit vector; grey where it is black. */
  static float[] axis(float[] colour) {
    double length = Math.sqrt(dot(colour, colour));
    float[] out = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      out[ch] = (float) (length < 1e-3 ? Math.sqrt(1.0 / 3) : colour[ch] / length);
    }
    return out;
  }

  /**
   * Replaces a colour by what of it is at right angles to the axis, enlarged, around middle grey.
   */
  static void reduce(float[] colour, float[] axis) {
    double along = dot(colour, axis);
    for (int ch = 0; ch < 3; ch++) {
      double rest = 0.5 + GAIN * (colour[ch] - along * axis[ch]);
      colour[ch] = (float) Math.max(0, Math.min(1, rest));
    }
  }

  private static double dot(float[] a, float[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  @Override
  public int width() {
    return source.width();
  }

  @Override
  public int height() {
    return source.height();
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    source.readGray(window, target);
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    source.readRgb(window, target);
    float[] c = new float[3];
    for (int i = 0; i < window.width() * window.height(); i++) {
      for (int ch = 0; ch < 3; ch++) {
        c[ch] = ((target[i] >> (16 - 8 * ch)) & 0xff) / 255f;
      }
      reduce(c, axis);
      int rgb = 0;
      for (float v : c) {
        rgb = rgb << 8 | Math.round(255 * v);
      }
      target[i] = rgb;
    }
  }

  @Override
  public void close() throws IOException {
    source.close();
  }
}
