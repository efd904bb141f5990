package org.diesurvey.photo.tiff;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/** Floating-point samples of a strip or tile: binary16, binary32 or binary64 of IEEE 754. */
final class FloatSamples {
  private final ByteBuffer bytes;
  private final int size;

  /**
   * @param raw the decompressed strip or tile, which is used up
   * @param order byte order of the file
   * @param row samples in a row
   * @param step samples from one pixel to the next
   */
  FloatSamples(byte[] raw, ByteOrder order, TiffForm form, int row, int step) {
    size = form.bits() / 8;
    boolean sorted = form.predictor() == TiffForm.Predictor.FLOATING_POINT;
    bytes = ByteBuffer.wrap(raw).order(sorted ? ByteOrder.BIG_ENDIAN : order);
    byte[] line = new byte[sorted ? row * size : 0];
    for (int start = 0; start < count() && form.predictor() != TiffForm.Predictor.NONE; ) {
      if (sorted) {
        unsort(raw, start * size, line, step);
      } else {
        addUp(start, start + row, step);
      }
      start += row;
    }
  }

  int count() {
    return bytes.capacity() / size;
  }

  double at(int i) {
    return switch (size) {
      case 2 -> half(bytes.getShort(2 * i));
      case 4 -> bytes.getFloat(4 * i);
      default -> bytes.getDouble(8 * i);
    };
  }

  /** The value of a binary16: 1 bit sign, 5 exponent with bias 15, 10 fraction (IEEE 754-2008). */
  static double half(short bits) {
    int exponent = bits >> 10 & 0x1f;
    int fraction = bits & 0x3ff;
    double size =
        exponent == 0x1f
            ? fraction == 0 ? Double.POSITIVE_INFINITY : Double.NaN
            : exponent == 0 ? fraction * 0x1p-24 : Math.scalb(1024.0 + fraction, exponent - 25);
    return bits < 0 ? -size : size;
  }

  /** Differences of bytes, all highest bytes of a row first, then the next ones. */
  private void unsort(byte[] raw, int start, byte[] line, int step) {
    for (int i = step; i < line.length; i++) {
      raw[start + i] += raw[start + i - step];
    }
    System.arraycopy(raw, start, line, 0, line.length);
    int row = line.length / size;
    for (int i = 0; i < line.length; i++) {
      raw[start + i % row * size + i / row] = line[i];
    }
  }

  private void addUp(int start, int end, int step) {
    for (int i = start + step; i < end; i++) {
      int at = i * size;
      int before = (i - step) * size;
      switch (size) {
        case 2 -> bytes.putShort(at, (short) (bytes.getShort(at) + bytes.getShort(before)));
        case 4 -> bytes.putInt(at, bytes.getInt(at) + bytes.getInt(before));
        default -> bytes.putLong(at, bytes.getLong(at) + bytes.getLong(before));
      }
    }
  }
}
