package org.diesurvey.photo;

import java.io.IOException;
import java.util.OptionalDouble;
import org.diesurvey.Cancellation;
import org.diesurvey.raster.PixelRect;

/**
 * Pixels on the scale of 0 to 1 that everything works on, whatever part of its levels the camera
 * filled. The levels are looked at when the first window is read, not before.
 */
final class LevelledPixels implements PixelSource {
  private static final int BYTE = 0xff;

  private final PixelSource stored;
  private final int storedBits;
  private LevelSample sample;
  private Levels levels;
  private byte[] table;

  /** The level of no light; other than 0 only where levels shall be in proportion to light. */
  private float zero;

  LevelledPixels(PixelSource stored, int storedBits) {
    this.stored = stored;
    this.storedBits = storedBits;
  }

  /** The pixels as they were stored. */
  PixelSource stored() {
    return stored;
  }

  /** The same pixels without any spreading of their levels. */
  LevelledPixels proportional() {
    LevelledPixels plain = new LevelledPixels(stored, storedBits);
    plain.sample = sample();
    plain.zero = (float) scaledZero().orElse(0);
    plain.use(levels().unspread());
    return plain;
  }

  private OptionalDouble scaledZero() {
    return stored instanceof StoredPixels samples ? samples.zero() : OptionalDouble.empty();
  }

  private boolean asStored() {
    return levels().asStored() && zero == 0;
  }

  private float used(Levels to, float level) {
    float used = to.used(level);
    return zero == 0 ? used : light(used);
  }

  private float light(float level) {
    return Math.max(0, (level - zero) / (1 - zero));
  }

  private synchronized void use(Levels chosen) {
    levels = chosen;
    boolean samples = stored instanceof StoredPixels;
    table = (samples ? levels : new Levels(8, 8, levels.low(), levels.high())).table();
    for (int i = 0; i < table.length && zero != 0; i++) {
      table[i] = (byte) Math.round(BYTE * light((table[i] & BYTE) / (float) BYTE));
    }
  }

  synchronized LevelSample sample() {
    if (sample == null) {
      sample = LevelSample.of(stored);
    }
    return sample;
  }

  synchronized Levels levels() {
    if (levels == null) {
      use(sample().levels(storedBits, scaledZero().isEmpty()));
    }
    return levels;
  }

  @Override
  public int width() {
    return stored.width();
  }

  @Override
  public int height() {
    return stored.height();
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    Cancellation.check();
    Levels to = levels();
    stored.readGray(window, target);
    if (asStored()) {
      return;
    }
    for (int i = window.width() * window.height() - 1; i >= 0; i--) {
      target[i] = used(to, target[i]);
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    Cancellation.check();
    if (asStored()) {
      stored.readRgb(window, target);
    } else if (stored instanceof StoredPixels samples) {
      samples.readRgb(window, target, table);
    } else {
      stored.readRgb(window, target);
      for (int i = window.width() * window.height() - 1; i >= 0; i--) {
        int c = target[i];
        target[i] = looked(c >> 16) << 16 | looked(c >> 8) << 8 | looked(c);
      }
    }
  }

  private int looked(int channel) {
    return table[channel & BYTE] & BYTE;
  }

  @Override
  public void close() throws IOException {
    stored.close();
  }
}
