package org.diesurvey.synthetic;

import java.util.Arrays;

/** Takes the photo of a scale: place in the field, light, dirt, camera. */
final class MicrometerPhoto {
  private final MicrometerScale scale;
  private final int w;
  private final int h;
  private final double pitch;
  private final double angleDeg;
  private final double cos;
  private final double sin;
  private final double blurPx;
  private final double distortion;
  private final double sAtCentre;
  private final double tAtCentre;

  MicrometerPhoto(
      MicrometerScale scale,
      int w,
      int h,
      double pitch,
      double angleDeg,
      double blurPx,
      double distortion,
      Dice place) {
    this.scale = scale;
    this.w = w;
    this.h = h;
    this.pitch = pitch;
    this.angleDeg = angleDeg;
    cos = StrictMath.cos(StrictMath.toRadians(angleDeg));
    sin = StrictMath.sin(StrictMath.toRadians(angleDeg));
    this.blurPx = blurPx;
    this.distortion = distortion;
    double length = scale.divisions() * scale.divisionUm;
    double fieldUm = pitch * Math.min(w, h);
    // The middle of the field lies on the scale, or so near its end that half of it still shows.
    double spare = Math.max(0, Math.min(0.3 * length, length / 2 - 0.3 * fieldUm));
    sAtCentre = length / 2 + place.uniform(-1, 1) * spare;
    tAtCentre = scale.middleUm() + place.uniform(-0.12, 0.12) * fieldUm;
  }

  DrawnMicrometer take(long seed, Dice dice, int tiers, double errorUm) {
    boolean dark = dice.chance(0.35);
    double contrast = dice.uniform(0.2, 0.85);
    double ground = dark ? dice.uniform(0.04, 0.2) : dice.uniform(0.35, 0.8);
    double step = dark ? contrast * (0.9 - ground) : -contrast * ground;
    double falloff = dice.uniform(0, 0.35);
    double tilt = dice.uniform(-0.12, 0.12);
    float[] cover = new float[w * h];
    render(cover);
    Dirt dirt = new Dirt(dice.child("dirt"), w, h);
    double electrons = dice.logUniform(1500, 20000);
    double read = dice.uniform(3, 20);
    double gamma = dice.uniform(0.6, 1);
    double sharpening = dice.chance(0.3) ? dice.uniform(0.1, 0.6) : 0;
    int jpeg = dice.chance(0.6) ? dice.between(70, 95) : 0;
    Optics optics =
        new Optics(0.5, 0, 0, 0, 0, 0, 0, 0, 0, 0, electrons, read, 1, gamma, sharpening, jpeg);
    Camera camera = new Camera(optics, dice.child("noise"));
    byte[] rgb = new byte[3 * w * h];
    float[] plane = new float[w * h];
    float[] scratch = new float[w * h];
    double[] tints = {dice.uniform(0.92, 1), dice.uniform(0.96, 1), dice.uniform(0.85, 1)};
    for (int k = 0; k < 3; k++) {
      for (int y = 0; y < h; y++) {
        for (int x = 0; x < w; x++) {
          int i = y * w + x;
          double dx = (x + 0.5 - w / 2.0) / w;
          double dy = (y + 0.5 - h / 2.0) / w;
          double light = 1 - falloff * 2 * (dx * dx + dy * dy) + tilt * dx;
          double value = ground + step * cover[i];
          plane[i] = (float) (tints[k] * light * dirt.at(x, y, value));
        }
      }
      camera.develop(plane, scratch, rgb, w, h, k);
    }
    if (jpeg > 0) {
      rgb = JpegTrip.through(rgb, w, h, jpeg);
    }
    double noise = Math.sqrt(ground / electrons + Math.pow(read / electrons, 2));
    double stepSize = Math.abs(step);
    boolean sharp =
        blurPx * pitch <= 0.08 * scale.divisionUm && distortion == 0 && noise <= 0.1 * stepSize;
    int[] lines = count();
    return new DrawnMicrometer(
        w,
        h,
        rgb,
        new MicrometerTruth(
            seed,
            pitch,
            scale.divisionUm,
            scale.widthUm,
            angleDeg,
            lines[0],
            lines[1],
            tiers == 0,
            tiers < 2,
            dark,
            contrast,
            blurPx,
            noise,
            distortion,
            errorUm,
            jpeg,
            sharp));
  }

  private void render(float[] cover) {
    // A pixel's own square adds its variance of 1/12 px^2 to the blur.
    double sigmaUm = pitch * Math.sqrt(blurPx * blurPx + 1.0 / 12);
    double corner = 0.25 * ((double) w * w + (double) h * h);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double dx = x + 0.5 - w / 2.0;
        double dy = y + 0.5 - h / 2.0;
        double stretch = pitch * (1 + distortion * (dx * dx + dy * dy) / corner);
        double s = sAtCentre + stretch * (dx * cos + dy * sin);
        double t = tAtCentre + stretch * (dy * cos - dx * sin);
        cover[y * w + x] = (float) scale.cover(s, t, sigmaUm);
      }
    }
  }

  /** Lines drawn whose middle lies in the picture, and lines left out between them. */
  private int[] count() {
    int drawn = 0;
    int last = -1;
    int gaps = 0;
    for (int i = 0; i <= scale.divisions(); i++) {
      double ds = (scale.placeUm(i) - sAtCentre) / pitch;
      double dt = (scale.middleUm() - tAtCentre) / pitch;
      double x = w / 2.0 + ds * cos - dt * sin;
      double y = h / 2.0 + ds * sin + dt * cos;
      if (scale.drawn(i) && x > 0 && y > 0 && x < w && y < h) {
        drawn++;
        gaps += last >= 0 ? i - last - 1 : 0;
        last = i;
      }
    }
    return new int[] {drawn, gaps};
  }

  /** Grains, holes in the coating and fibres. */
  private static final class Dirt {
    private final int w;
    private final float[] factor;

    Dirt(Dice dice, int w, int h) {
      this.w = w;
      factor = new float[w * h];
      Arrays.fill(factor, 1);
      int grains = dice.chance(0.7) ? dice.between(0, 45) : 0;
      for (int i = 0; i < grains; i++) {
        double r = dice.logUniform(0.8, 0.012 * w);
        spot(dice.uniform(0, w), dice.uniform(0, h), r, dice.pick(0.2, 0.5, 0.7, 1.3), h);
      }
      int fibres = dice.chance(0.35) ? dice.between(1, 3) : 0;
      for (int i = 0; i < fibres; i++) {
        fibre(dice, h);
      }
    }

    private void fibre(Dice dice, int h) {
      double x = dice.uniform(0, w);
      double y = dice.uniform(0, h);
      double heading = dice.uniform(0, 2 * Math.PI);
      double r = dice.uniform(0.8, 3);
      for (int i = 0; i < 250; i++) {
        spot(x, y, r, 0.55, h);
        x += r * StrictMath.cos(heading);
        y += r * StrictMath.sin(heading);
        heading += 0.08 * dice.normal();
      }
    }

    private void spot(double x0, double y0, double r, double value, int h) {
      for (int y = (int) Math.max(0, y0 - r - 1); y < Math.min(h, y0 + r + 2); y++) {
        for (int x = (int) Math.max(0, x0 - r - 1); x < Math.min(w, x0 + r + 2); x++) {
          double d = r + 0.5 - Math.hypot(x + 0.5 - x0, y + 0.5 - y0);
          double share = Math.max(0, Math.min(1, d));
          float f = (float) (1 + share * (value - 1));
          int i = y * w + x;
          factor[i] = value < 1 ? Math.min(factor[i], f) : Math.max(factor[i], f);
        }
      }
    }

    double at(int x, int y, double value) {
      return value * factor[y * w + x];
    }
  }
}
