package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.photo.file.PhotoFile;

/** Reads the header of a BMP (BITMAPINFOHEADER and its successors, from memory). */
final class BmpHeader {
  private static final int LEAST_BYTES = 54;

  private BmpHeader() {}

  static PhotoHeader read(PhotoFile file) {
    if (file.size() < LEAST_BYTES) {
      throw file.refusals().truncated("a BMP of " + file.size() + " bytes");
    }
    ByteBuffer head = file.buffer(0, LEAST_BYTES, ByteOrder.LITTLE_ENDIAN);
    if (head.getInt(14) < 40) {
      throw file.refusals().unsupported("a BMP of a very old kind");
    }
    int bits = head.getShort(28);
    double perMetre = head.getInt(38);
    Optional<TaggedScale> scale =
        ScaleTags.ofDensity(perMetre, ScaleTags.UM_PER_METRE, "BMP XPelsPerMeter");
    // Up to eight bits a pixel are numbers of a palette; ImageIO tells whether it is grey.
    return new PhotoHeader(
        head.getInt(18), Math.abs(head.getInt(22)), 8, bits == 32 ? 4 : 3, scale);
  }
}
