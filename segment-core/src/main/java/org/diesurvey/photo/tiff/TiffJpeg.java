package org.diesurvey.photo.tiff;

import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.MemoryCacheImageInputStream;

/**
 * JPEG strips and tiles of a TIFF (Technical Note 2 to TIFF 6.0, compression 7): the tables that
 * all share stand in a field of their own.
 */
final class TiffJpeg {
  private TiffJpeg() {}

  /**
   * @param tables the field JPEGTables, empty if there is none
   * @param in one strip or tile
   * @param out filled with 8-bit samples, pixel by pixel
   * @param width of the strip or tile, px
   * @param samples per pixel
   * @param lumaChroma whether the samples are YCbCr and are to become RGB
   * @return samples written, or -1 where the data make no sense
   */
  static int decode(
      byte[] tables, byte[] in, byte[] out, int width, int samples, boolean lumaChroma) {
    ImageReader reader = ImageIO.getImageReadersByFormatName("jpeg").next();
    try {
      reader.setInput(
          new MemoryCacheImageInputStream(new ByteArrayInputStream(joined(tables, in))),
          true,
          true);
      Raster raster = reader.readRaster(0, null);
      int rows = Math.min(raster.getHeight(), out.length / (width * samples));
      if (raster.getWidth() != width || raster.getNumBands() != samples) {
        return -1;
      }
      byte[] row = new byte[width * samples];
      for (int y = 0; y < rows; y++) {
        raster.getDataElements(raster.getMinX(), raster.getMinY() + y, width, 1, row);
        if (lumaChroma) {
          toRgb(row, samples);
        }
        System.arraycopy(row, 0, out, y * row.length, row.length);
      }
      return rows * row.length;
    } catch (IOException | RuntimeException e) {
      return -1;
    } finally {
      reader.dispose();
    }
  }

  /** The tables without their end mark, then the picture without its start mark. */
  private static byte[] joined(byte[] tables, byte[] in) {
    if (tables.length < 4) {
      return in;
    }
    byte[] whole = new byte[tables.length - 2 + in.length - 2];
    System.arraycopy(tables, 0, whole, 0, tables.length - 2);
    System.arraycopy(in, 2, whole, tables.length - 2, in.length - 2);
    return whole;
  }

  /** ITU-T T.871, 7: from YCbCr of full range to RGB, in 65,536ths of a level. */
  private static void toRgb(byte[] row, int samples) {
    for (int i = 0; i + 2 < row.length; i += samples) {
      int y = ((row[i] & 0xFF) << 16) + HALF;
      int cb = (row[i + 1] & 0xFF) - 128;
      int cr = (row[i + 2] & 0xFF) - 128;
      row[i] = level(y + RED_OF_CR * cr);
      row[i + 1] = level(y - GREEN_OF_CB * cb - GREEN_OF_CR * cr);
      row[i + 2] = level(y + BLUE_OF_CB * cb);
    }
  }

  private static final int HALF = 1 << 15;
  private static final int RED_OF_CR = 91_881; // 1.402
  private static final int GREEN_OF_CB = 22_553; // 0.344136
  private static final int GREEN_OF_CR = 46_802; // 0.714136
  private static final int BLUE_OF_CB = 116_130; // 1.772

  private static byte level(int v) {
    int whole = v >> 16;
    return (byte) (whole < 0 ? 0 : Math.min(255, whole));
  }
}
