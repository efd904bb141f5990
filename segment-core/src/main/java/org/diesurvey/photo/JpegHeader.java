package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.photo.file.PhotoFile;

/**
 * Reads the markers of a JPEG up to its frame header (ITU-T T.81, annex B) and looks for its end.
 */
final class JpegHeader {
  private static final int APP0 = 0xe0;
  private static final int APP1 = 0xe1;
  private static final int EXIF_MARK_BYTES = 6;
  private static final int SOS = 0xda;
  private static final int EOI = 0xd9;
  private static final int TAIL_BYTES = 1 << 16;

  private JpegHeader() {}

  static PhotoHeader read(PhotoFile file) {
    JpegMarkers.check(file);
    Optional<TaggedScale> scale = Optional.empty();
    ExifTags exif = ExifTags.NONE;
    long at = 2;
    while (true) {
      if (at + 4 > file.size()) {
        throw file.refusals().truncated("the JPEG has no frame header");
      }
      ByteBuffer start = file.buffer(at, 4, ByteOrder.BIG_ENDIAN);
      int marker = start.get(1) & 0xff;
      if ((start.get(0) & 0xff) != 0xff || marker == SOS || marker == EOI || marker == 0) {
        throw file.refusals().damaged("no JPEG marker at byte " + at);
      }
      if (marker == 0xff || marker == 0x01 || marker >= 0xd0 && marker <= 0xd7) {
        at += marker == 0xff ? 1 : 2;
        continue;
      }
      int length = start.getShort(2) & 0xffff;
      if (length < 2) {
        throw file.refusals().damaged("a JPEG segment of " + length + " bytes at byte " + at);
      }
      if (at + 2 + length > file.size()) {
        throw file.refusals().truncated("the JPEG ends in its header");
      }
      ByteBuffer body = file.buffer(at + 4, length - 2, ByteOrder.BIG_ENDIAN);
      if (marker == APP0 && scale.isEmpty()) {
        scale = density(body);
      }
      if (marker == APP1 && isExif(body) && exif == ExifTags.NONE) {
        exif = ExifTags.read(file, at + 4 + EXIF_MARK_BYTES, length - 2 - EXIF_MARK_BYTES);
      }
      if (isFrame(marker)) {
        checkEnd(file);
        return frame(file, body, scale).with(exif);
      }
      at += 2 + length;
    }
  }

  /** SOF0 to SOF15 without DHT, JPG and DAC. */
  private static boolean isFrame(int marker) {
    return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
  }

  private static PhotoHeader frame(PhotoFile file, ByteBuffer body, Optional<TaggedScale> scale) {
    if (body.limit() < 6) {
      throw file.refusals().damaged("a short JPEG frame header");
    }
    int bits = body.get(0);
    int height = body.getShort(1) & 0xffff;
    int width = body.getShort(3) & 0xffff;
    int components = body.get(5);
    if (bits != 8) {
      throw file.refusals().unsupported("a JPEG with " + bits + "-bit samples");
    }
    if (components == 4) {
      throw file.refusals().unsupported("CMYK colours");
    }
    if (components != 1 && components != 3) {
      throw file.refusals().unsupported("a JPEG with " + components + " components");
    }
    return new PhotoHeader(width, height, bits, components, scale);
  }

  /** "Exif" and two zeros before the block (CIPA DC-008, 4.7.2, from memory). */
  private static boolean isExif(ByteBuffer body) {
    return body.limit() > EXIF_MARK_BYTES + 8
        && body.getInt(0) == 0x45786966
        && body.getShort(4) == 0;
  }

  /** JFIF density (ITU-T T.871, 10.1): unit 1 is per inch, 2 per centimetre, 0 none. */
  private static Optional<TaggedScale> density(ByteBuffer body) {
    boolean jfif = body.limit() >= 12 && body.getInt(0) == 0x4a464946 && body.get(4) == 0;
    if (!jfif) {
      return Optional.empty();
    }
    double x = body.getShort(8) & 0xffff;
    return switch (body.get(7)) {
      case 1 -> ScaleTags.ofDensity(x, ScaleTags.UM_PER_INCH, "JPEG JFIF density (per inch)");
      case 2 ->
          ScaleTags.ofDensity(x, ScaleTags.UM_PER_CENTIMETRE, "JPEG JFIF density (per centimetre)");
      default -> Optional.empty();
    };
  }

  private static void checkEnd(PhotoFile file) {
    int count = (int) Math.min(TAIL_BYTES, file.size());
    byte[] tail = file.read(file.size() - count, count);
    for (int i = count - 2; i >= 0; i--) {
      if ((tail[i] & 0xff) == 0xff && (tail[i + 1] & 0xff) == EOI) {
        return;
      }
    }
    throw file.refusals().truncated("the JPEG has no end mark");
  }
}
