package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.diesurvey.files.ScratchFile;
import org.diesurvey.photo.file.SampleBlock;
import org.diesurvey.raster.PixelRect;

/** A photograph held decoded in a scratch file, in the samples that its own file stored. */
final class ScratchPixels implements StoredPixels {
  private final ScratchFile file;
  private final int width;
  private final int height;
  private final int samples;
  private final int bits;

  ScratchPixels(ScratchFile file, int width, int height, int samples, int bits) {
    this.file = file;
    this.width = width;
    this.height = height;
    this.samples = samples;
    this.bits = bits;
  }

  @Override
  public int width() {
    return width;
  }

  @Override
  public int height() {
    return height;
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      row(window, y).gray(0, 0, window.width(), target, y * window.width());
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      row(window, y).rgb(0, 0, window.width(), target, y * window.width());
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target, byte[] table) {
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      row(window, y).rgb(0, 0, window.width(), target, y * window.width(), table);
    }
  }

  /** A row of a window. */
  private SampleBlock row(PixelRect window, int y) {
    int pixelBytes = samples * bits / 8;
    ByteBuffer bytes =
        ByteBuffer.allocate(window.width() * pixelBytes).order(ByteOrder.nativeOrder());
    long at = ((long) (window.y() + y) * width + window.x()) * pixelBytes;
    file.read(at, bytes);
    SampleBlock.Order order = SampleBlock.Order.interleaved(window.width(), samples);
    if (bits == 8) {
      return SampleBlock.of8Bit(bytes.array(), order);
    }
    short[] values = new short[window.width() * samples];
    bytes.flip();
    bytes.asShortBuffer().get(values);
    return SampleBlock.of16Bit(values, order);
  }

  @Override
  public void close() {
    file.close();
  }
}
