package org.diesurvey.photo;

import java.awt.image.Raster;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.Deflater;

/** A small writer of every kind of TIFF that is read, for tests only. */
final class TiffSample {
  /** Codings by their TIFF code. */
  static final int NONE = 1;

  static final int LZW = 5;
  static final int DEFLATE = 8;
  static final int DEFLATE_OLD = 32946;
  static final int PACK_BITS = 32773;

  private final Raster raster;
  private final int bits;
  private final Map<Integer, long[]> extra = new TreeMap<>();
  private ByteOrder order = ByteOrder.LITTLE_ENDIAN;
  private boolean big;
  private boolean planar;
  private boolean whiteIsZero;
  private int compression = NONE;
  private int predictor = 1;
  private int tile;
  private int rowsPerStrip;

  TiffSample(Raster raster, int bits) {
    this.raster = raster;
    this.bits = bits;
    this.rowsPerStrip = raster.getHeight();
  }

  TiffSample order(ByteOrder value) {
    order = value;
    return this;
  }

  TiffSample big(boolean value) {
    big = value;
    return this;
  }

  TiffSample planar(boolean value) {
    planar = value;
    return this;
  }

  TiffSample whiteIsZero() {
    whiteIsZero = true;
    return this;
  }

  TiffSample coding(int code, int withPredictor) {
    compression = code;
    predictor = withPredictor;
    return this;
  }

  /** Square tiles of this side instead of strips. */
  TiffSample tiles(int side) {
    tile = side;
    return this;
  }

  TiffSample strips(int rows) {
    rowsPerStrip = rows;
    return this;
  }

  /** A further or different field; long[]{type, value...}, type 5 takes numerator, denominator. */
  TiffSample field(int tag, long... typeAndValues) {
    extra.put(tag, typeAndValues);
    return this;
  }

  Path write(Path file) {
    try {
      return Files.write(file, bytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  byte[] bytes() {
    int samples = raster.getNumBands();
    int planes = planar ? samples : 1;
    int chunkWidth = tile > 0 ? tile : raster.getWidth();
    int chunkHeight = tile > 0 ? tile : rowsPerStrip;
    int across = (raster.getWidth() + chunkWidth - 1) / chunkWidth;
    int down = (raster.getHeight() + chunkHeight - 1) / chunkHeight;
    long[] offsets = new long[across * down * planes + 1];
    long[] counts = new long[offsets.length];
    offsets[0] = 16;
    counts[0] = 16;
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    int headBytes = big ? 16 : 8;
    for (int i = 1; i < offsets.length; i++) {
      int k = (i - 1) % (across * down);
      int y = k / across * chunkHeight;
      int rows = tile > 0 ? tile : Math.min(chunkHeight, raster.getHeight() - y);
      byte[] data =
          encode(pixels(k % across * chunkWidth, y, chunkWidth, rows, (i - 1) / (across * down)));
      offsets[i] = headBytes + body.size();
      counts[i] = data.length;
      body.writeBytes(data);
    }
    Map<Integer, long[]> fields = new TreeMap<>();
    fields.put(256, new long[] {4, raster.getWidth()});
    fields.put(257, new long[] {4, raster.getHeight()});
    long[] bitField = new long[samples + 1];
    java.util.Arrays.fill(bitField, bits);
    bitField[0] = 3;
    fields.put(258, bitField);
    fields.put(259, new long[] {3, compression});
    fields.put(262, new long[] {3, samples >= 3 ? 2 : whiteIsZero ? 0 : 1});
    fields.put(277, new long[] {3, samples});
    fields.put(284, new long[] {3, planar ? 2 : 1});
    fields.put(317, new long[] {3, predictor});
    if (samples % 2 == 0) {
      fields.put(338, new long[] {3, 2});
    }
    int type = big ? 16 : 4;
    offsets[0] = type;
    counts[0] = type;
    if (tile > 0) {
      fields.put(322, new long[] {3, tile});
      fields.put(323, new long[] {3, tile});
      fields.put(324, offsets);
      fields.put(325, counts);
    } else {
      fields.put(278, new long[] {3, rowsPerStrip});
      fields.put(273, offsets);
      fields.put(279, counts);
    }
    fields.putAll(extra);
    return assemble(body.toByteArray(), fields);
  }

  private byte[] assemble(byte[] body, Map<Integer, long[]> fields) {
    int head = big ? 16 : 8;
    int directory = head + body.length + (body.length & 1);
    int entry = big ? 20 : 12;
    int inline = big ? 8 : 4;
    int far = directory + (big ? 8 : 2) + fields.size() * entry + inline;
    int size = far;
    for (long[] field : fields.values()) {
      size += bytesOf(field) > inline ? bytesOf(field) : 0;
    }
    ByteBuffer out = ByteBuffer.allocate(size).order(order);
    out.put((byte) (order == ByteOrder.LITTLE_ENDIAN ? 'I' : 'M'));
    out.put(out.get(0));
    out.putShort((short) (big ? 43 : 42));
    if (big) {
      out.putInt(order == ByteOrder.LITTLE_ENDIAN ? 8 : 8 << 16).putLong(directory);
    } else {
      out.putInt(directory);
    }
    out.put(body).position(directory);
    if (big) {
      out.putLong(fields.size());
    } else {
      out.putShort((short) fields.size());
    }
    for (Map.Entry<Integer, long[]> e : fields.entrySet()) {
      long[] field = e.getValue();
      int count = (field.length - 1) / (field[0] == 5 ? 2 : 1);
      out.putShort(e.getKey().shortValue()).putShort((short) field[0]);
      int place;
      if (big) {
        out.putLong(count);
      } else {
        out.putInt(count);
      }
      place = out.position();
      if (bytesOf(field) > inline) {
        putWord(out, far);
        putValues(out, far, field);
        far += bytesOf(field);
      } else {
        putValues(out, place, field);
      }
      out.position(place + inline);
    }
    return out.array();
  }

  private void putWord(ByteBuffer out, int value) {
    if (big) {
      out.putLong(value);
    } else {
      out.putInt(value);
    }
  }

  private static int typeBytes(long type) {
    return switch ((int) type) {
      case 2 -> 1;
      case 3 -> 2;
      case 16 -> 8;
      default -> 4;
    };
  }

  private static int bytesOf(long[] field) {
    return (field.length - 1) * typeBytes(field[0]);
  }

  private static void putValues(ByteBuffer out, int at, long[] field) {
    int size = typeBytes(field[0]);
    for (int i = 1; i < field.length; i++) {
      int place = at + (i - 1) * size;
      switch (size) {
        case 1 -> out.put(place, (byte) field[i]);
        case 2 -> out.putShort(place, (short) field[i]);
        case 4 -> out.putInt(place, (int) field[i]);
        default -> out.putLong(place, field[i]);
      }
    }
  }

  /** Samples of a window, edge pixels repeated outside the picture, predictor applied. */
  private byte[] pixels(int x0, int y0, int width, int height, int plane) {
    int samples = planar ? 1 : raster.getNumBands();
    ByteBuffer out = ByteBuffer.allocate(width * height * samples * bits / 8).order(order);
    int top = (1 << bits) - 1;
    for (int y = 0; y < height; y++) {
      int[] previous = new int[samples];
      for (int x = 0; x < width; x++) {
        for (int s = 0; s < samples; s++) {
          int px = Math.min(x0 + x, raster.getWidth() - 1);
          int py = Math.min(y0 + y, raster.getHeight() - 1);
          int value = raster.getSample(px, py, planar ? plane : s);
          value = whiteIsZero ? top - value : value;
          int written = predictor == 2 ? value - previous[s] : value;
          previous[s] = value;
          switch (bits) {
            case 8 -> out.put((byte) written);
            case 16 -> out.putShort((short) written);
            default -> out.putInt(written);
          }
        }
      }
    }
    return out.array();
  }

  private byte[] encode(byte[] data) {
    return switch (compression) {
      case DEFLATE, DEFLATE_OLD -> deflate(data);
      case PACK_BITS -> packBits(data);
      case LZW -> LzwWriter.encode(data);
      default -> data;
    };
  }

  private static byte[] deflate(byte[] data) {
    Deflater deflater = new Deflater();
    deflater.setInput(data);
    deflater.finish();
    byte[] buffer = new byte[data.length * 2 + 100];
    int length = deflater.deflate(buffer);
    deflater.end();
    return java.util.Arrays.copyOf(buffer, length);
  }

  /** Runs of three and more as runs, the rest literally. */
  private static byte[] packBits(byte[] data) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    int i = 0;
    while (i < data.length) {
      int run = 1;
      while (run < 128 && i + run < data.length && data[i + run] == data[i]) {
        run++;
      }
      if (run >= 3) {
        out.write(1 - run);
        out.write(data[i]);
        i += run;
      } else {
        int count = Math.min(2, data.length - i);
        out.write(count - 1);
        out.write(data, i, count);
        i += count;
      }
    }
    return out.toByteArray();
  }
}
