package org.diesurvey.photo;

import java.awt.Point;
import java.awt.image.BufferedImage;
import java.awt.image.ColorModel;
import java.awt.image.ComponentSampleModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferByte;
import java.awt.image.DataBufferUShort;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import javax.imageio.ImageTypeSpecifier;
import org.diesurvey.files.ScratchFile;

/**
 * The picture that a decoder of the platform fills row by row, kept in a scratch file instead of
 * memory: pixel by pixel, samples in the order of the colours, of 8 or 16 bits. It can only be
 * written, and only in whole rows.
 */
final class ScratchRaster extends WritableRaster {
  private final ScratchFile file;
  private final int sampleBytes;
  private final ByteBuffer row;
  private int held = -1;

  private ScratchRaster(ComponentSampleModel model, DataBuffer none, ScratchFile file) {
    super(model, none, new Point(0, 0));
    this.file = file;
    this.sampleBytes = none.getDataType() == DataBuffer.TYPE_BYTE ? 1 : 2;
    this.row = ByteBuffer.allocate(getWidth() * getNumBands() * sampleBytes);
    row.order(ByteOrder.nativeOrder());
  }

  /** Whether pictures of a type can be kept so: samples of 8 or 16 bits, none of a palette. */
  static boolean holds(ImageTypeSpecifier type) {
    int samples = type.getSampleModel().getDataType();
    return type.getSampleModel() instanceof ComponentSampleModel
        && type.getColorModel().getNumComponents() == type.getNumBands()
        && (samples == DataBuffer.TYPE_BYTE || samples == DataBuffer.TYPE_USHORT);
  }

  /**
   * An empty picture.
   *
   * @param type for which {@link #holds} says yes
   */
  static BufferedImage picture(ImageTypeSpecifier type, int width, int height) {
    int bands = type.getNumBands();
    boolean bytes = type.getSampleModel().getDataType() == DataBuffer.TYPE_BYTE;
    int[] order = new int[bands];
    for (int b = 0; b < bands; b++) {
      order[b] = b;
    }
    // Nothing is addressed through the model, so a stride of 0 lets it be of any size.
    ComponentSampleModel model =
        new ComponentSampleModel(
            bytes ? DataBuffer.TYPE_BYTE : DataBuffer.TYPE_USHORT, width, height, bands, 0, order);
    DataBuffer none = bytes ? new DataBufferByte(1) : new DataBufferUShort(1);
    ScratchFile file = ScratchFile.of((long) width * height * bands * (bytes ? 1 : 2));
    ColorModel colours = type.getColorModel();
    return new BufferedImage(
        colours, new ScratchRaster(model, none, file), colours.isAlphaPremultiplied(), null);
  }

  /** The pixels, once all rows are there. */
  ScratchPixels pixels() {
    flush();
    return new ScratchPixels(file, getWidth(), getHeight(), getNumBands(), 8 * sampleBytes);
  }

  /** Gives the file back. */
  void discard() {
    file.close();
  }

  @Override
  public void setRect(int dx, int dy, Raster source) {
    for (int r = 0; r < source.getHeight(); r++) {
      int y = source.getMinY() + r;
      begin(y + dy);
      int at = (source.getMinX() + dx) * getNumBands() * sampleBytes;
      Object samples = source.getDataElements(source.getMinX(), y, source.getWidth(), 1, null);
      if (samples instanceof byte[] bytes) {
        row.put(at, bytes);
      } else {
        row.position(at);
        row.asShortBuffer().put((short[]) samples);
      }
    }
  }

  @Override
  public void setPixel(int x, int y, int[] samples) {
    begin(y);
    int at = x * getNumBands() * sampleBytes;
    for (int b = 0; b < getNumBands(); b++) {
      if (sampleBytes == 1) {
        row.put(at + b, (byte) samples[b]);
      } else {
        row.putShort(at + 2 * b, (short) samples[b]);
      }
    }
  }

  /** Rows are held until the next one begins; a decoder gives each as a whole. */
  private void begin(int y) {
    if (y != held) {
      flush();
      held = y;
    }
  }

  private void flush() {
    if (held < 0) {
      return;
    }
    row.clear();
    file.write((long) held * row.capacity(), row);
    row.clear();
    held = -1;
  }
}
