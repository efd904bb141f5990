package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.CRC32;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;

/**
 * Reads the header of a PNG and checks that all its chunks are there and whole (ISO/IEC 15948, 5.3
 * and 11.2): the decoder itself does not look at the checksums.
 */
final class PngHeader {
  private static final int BLOCK_BYTES = 1 << 18;
  private static final Optional<TaggedScale> NONE = Optional.empty();
  private static final int METRE = 1;

  /** Chunks beyond this number must have so many bytes in the mean: each costs time of its own. */
  private static final int MANY_CHUNKS = 10_000;

  private static final int LEAST_MEAN_BYTES = 256;

  private PngHeader() {}

  static PhotoHeader read(PhotoFile file) {
    Refusals refusals = file.refusals();
    if (file.size() < 33) {
      throw refusals.truncated("a PNG of " + file.size() + " bytes");
    }
    ByteBuffer ihdr = file.buffer(8, 21, ByteOrder.BIG_ENDIAN);
    if (ihdr.getInt(0) != 13 || ihdr.getInt(4) != code("IHDR")) {
      throw refusals.damaged("it does not start with a PNG header");
    }
    int bits = ihdr.get(16);
    int samples =
        switch (ihdr.get(17)) {
          case 0 -> 1;
          case 2 -> 3;
          // A palette, written out when it is decoded.
          case 3 -> 3;
          case 4 -> 2;
          case 6 -> 4;
          default -> throw refusals.damaged("PNG colour type " + ihdr.get(17));
        };
    boolean few = bits == 1 || bits == 2 || bits == 4;
    if (!few && bits != 8 && bits != 16) {
      throw refusals.damaged("PNG bit depth " + bits);
    }
    if (few) {
      bits = 8;
      samples = 3;
    }
    return walkChunks(file, new PhotoHeader(ihdr.getInt(8), ihdr.getInt(12), bits, samples, NONE));
  }

  /** Whether the picture is stored in several passes (ISO/IEC 15948, 8.2), not row by row. */
  static boolean isInterlaced(PhotoFile file) {
    return file.read(28, 1)[0] != 0;
  }

  private static PhotoHeader walkChunks(PhotoFile file, PhotoHeader plain) {
    Optional<TaggedScale> scale = NONE;
    ExifTags exif = ExifTags.NONE;
    long at = 8;
    long chunks = 0;
    while (true) {
      if (++chunks > MANY_CHUNKS + file.size() / LEAST_MEAN_BYTES) {
        throw file.refusals().unsupported("a PNG cut into more than " + (chunks - 1) + " chunks");
      }
      if (at + 12 > file.size()) {
        throw file.refusals().truncated("the PNG has no end mark");
      }
      ByteBuffer start = file.buffer(at, 8, ByteOrder.BIG_ENDIAN);
      long length = start.getInt(0) & 0xffffffffL;
      int type = start.getInt(4);
      if (at + 12 + length > file.size()) {
        throw file.refusals().truncated("a PNG chunk reaches beyond the end of the file");
      }
      checkSum(file, at, length);
      if (type == code("pHYs") && length == 9) {
        ByteBuffer phys = file.buffer(at + 8, 9, ByteOrder.BIG_ENDIAN);
        if (phys.get(8) == METRE) {
          double perMetre = phys.getInt(0) & 0xffffffffL;
          scale = ScaleTags.ofDensity(perMetre, ScaleTags.UM_PER_METRE, "PNG pHYs");
        }
      }
      if (type == code("eXIf") && length > 8) {
        exif = ExifTags.read(file, at + 8, (int) length);
      }
      if (type == code("IEND")) {
        return new PhotoHeader(
                plain.width(),
                plain.height(),
                plain.bitsPerSample(),
                plain.samplesPerPixel(),
                scale)
            .with(exif);
      }
      at += 12 + length;
    }
  }

  private static void checkSum(PhotoFile file, long chunk, long length) {
    CRC32 crc = new CRC32();
    long end = chunk + 8 + length;
    for (long at = chunk + 4; at < end; at += BLOCK_BYTES) {
      crc.update(file.read(at, (int) Math.min(BLOCK_BYTES, end - at)));
    }
    if ((int) crc.getValue() != file.buffer(end, 4, ByteOrder.BIG_ENDIAN).getInt(0)) {
      throw file.refusals()
          .damaged(String.format(Locale.ROOT, "checksum of the PNG chunk at byte %d", chunk));
    }
  }

  private static int code(String type) {
    return ByteBuffer.wrap(type.getBytes(StandardCharsets.US_ASCII)).getInt();
  }
}
