package org.diesurvey.synthetic;

/** Exposure, shot and read noise, sharpening, tone curve, 8 bits. */
final class Camera {
  private static final int TABLE = 1 << 16;
  private final Optics optics;
  private final float[] normals = new float[TABLE];
  private final byte[] tones = new byte[4097];
  private long state;

  Camera(Optics optics, Dice dice) {
    this.optics = optics;
    for (int i = 0; i < TABLE; i++) {
      normals[i] = (float) dice.normal();
    }
    for (int i = 0; i < tones.length; i++) {
      tones[i] = (byte) StrictMath.round(255 * StrictMath.pow(i / 4096.0, optics.gamma()));
    }
    state = dice.bits() | 1;
  }

  private float normal() {
    // Xorshift generator of 64 bits (Marsaglia, J. Stat. Softw. 8 (2003) no. 14; shifts from
    // memory).
    state ^= state << 13;
    state ^= state >>> 7;
    state ^= state << 17;
    return normals[(int) (state >>> 48)];
  }

  void develop(float[] photo, float[] scratch, byte[] rgb, int w, int h, int k) {
    float gain = (float) optics.exposure();
    float perElectron = (float) (1 / optics.electrons());
    float read = (float) (optics.readNoise() / optics.electrons());
    int n = w * h;
    for (int i = 0; i < n; i++) {
      float v = photo[i] * gain;
      float sigma = (float) Math.sqrt(v * perElectron + read * read);
      photo[i] = v + sigma * normal();
    }
    if (optics.sharpening() > 0) {
      float s = (float) optics.sharpening();
      float[] soft = photo.clone();
      Blur.gaussian(soft, scratch, w, h, 1.0);
      for (int i = 0; i < n; i++) {
        photo[i] += s * (photo[i] - soft[i]);
      }
    }
    for (int i = 0; i < n; i++) {
      int t = (int) (Math.max(0, Math.min(1, photo[i])) * 4096 + 0.5f);
      rgb[3 * i + k] = tones[t];
    }
  }
}
