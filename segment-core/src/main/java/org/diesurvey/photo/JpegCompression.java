package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;
import org.diesurvey.photo.file.PhotoFile;

/**
 * How strongly a JPEG file was compressed, read from its table of quantisation for brightness.
 *
 * <p>The common scale of 1 (coarsest) to 100 (finest) multiplies the example table of ITU-T T.81,
 * table K.1, by 50/quality below 50 and by 2 - quality/50 above, rounds, and clips to 1..255: the
 * rule of the reference library of the JPEG group (rule from memory). Cameras with tables of their
 * own get the quality whose table is nearest.
 *
 * @param quality 1 to 100
 * @param commonTable whether the file's table is exactly the one of that quality
 */
public record JpegCompression(int quality, boolean commonTable) {
  private static final int DQT = 0xdb;
  private static final int SOS = 0xda;

  /** ITU-T T.81 (1992), table K.1, row by row. */
  private static final int[] BRIGHTNESS = {
    16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56,
    14, 17, 22, 29, 51, 87, 80, 62, 18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113,
    92, 49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99
  };

  /** Place in a row-by-row block of each entry of the stored, zigzag order (T.81, figure A.6). */
  private static final int[] ZIGZAG = {
    0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20,
    13, 6, 7, 14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59,
    52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63
  };

  /** Reads the markers up to the first scan; empty where no table 0 is found. */
  static Optional<JpegCompression> read(PhotoFile file) {
    long at = 2;
    while (at + 4 <= file.size()) {
      ByteBuffer start = file.buffer(at, 4, ByteOrder.BIG_ENDIAN);
      int marker = start.get(1) & 0xff;
      if ((start.get(0) & 0xff) != 0xff || marker == SOS) {
        return Optional.empty();
      }
      if (marker == 0xff || marker == 0x01 || marker >= 0xd0 && marker <= 0xd7) {
        at += marker == 0xff ? 1 : 2;
        continue;
      }
      int length = start.getShort(2) & 0xffff;
      if (length < 2 || at + 2 + length > file.size()) {
        return Optional.empty();
      }
      if (marker == DQT) {
        Optional<JpegCompression> found =
            ofTables(file.buffer(at + 4, length - 2, ByteOrder.BIG_ENDIAN));
        if (found.isPresent()) {
          return found;
        }
      }
      at += 2 + length;
    }
    return Optional.empty();
  }

  /** One DQT segment holds one or more tables of 8 or 16 bit (T.81, B.2.4.1). */
  private static Optional<JpegCompression> ofTables(ByteBuffer body) {
    while (body.hasRemaining()) {
      int head = body.get() & 0xff;
      int bytes = head >> 4 == 0 ? 1 : 2;
      if (body.remaining() < 64 * bytes) {
        return Optional.empty();
      }
      int[] table = new int[64];
      for (int i = 0; i < 64; i++) {
        table[ZIGZAG[i]] = bytes == 1 ? body.get() & 0xff : body.getShort() & 0xffff;
      }
      if ((head & 0x0f) == 0) {
        return Optional.of(ofTable(table));
      }
    }
    return Optional.empty();
  }

  /** The quality whose table is nearest; the finer one of two equally near. */
  static JpegCompression ofTable(int[] rowByRow) {
    int best = 100;
    long least = Long.MAX_VALUE;
    for (int quality = 100; quality >= 1; quality--) {
      long off = 0;
      int[] common = table(quality);
      for (int i = 0; i < 64; i++) {
        off += Math.abs(rowByRow[i] - common[i]);
      }
      if (off < least) {
        least = off;
        best = quality;
      }
    }
    return new JpegCompression(best, least == 0);
  }

  /** The common table of a quality, row by row. */
  static int[] table(int quality) {
    int percent = quality < 50 ? 5000 / quality : 200 - 2 * quality;
    int[] table = new int[64];
    for (int i = 0; i < 64; i++) {
      table[i] = Math.max(1, Math.min(255, (BRIGHTNESS[i] * percent + 50) / 100));
    }
    return table;
  }
}
