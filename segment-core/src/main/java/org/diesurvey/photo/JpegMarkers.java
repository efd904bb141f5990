package org.diesurvey.photo;

import org.diesurvey.photo.file.PhotoFile;

/**
 * Walks over all markers of a JPEG (ITU-T T.81, annex B) before it is decoded, so that a small file
 * cannot cost much: every scan of a progressive JPEG is a pass over the whole picture, however few
 * bytes it has, and any number of fill bytes may stand before a marker.
 */
final class JpegMarkers {
  /** Most scans; coders of photographs write about ten (own choice, from memory). */
  static final int MOST_SCANS = 100;

  /** Most fill bytes together; coders write none or a few (own choice). */
  static final int MOST_FILL_BYTES = 4096;

  private static final int SOS = 0xda;
  private static final int EOI = 0xd9;
  private static final int BLOCK_BYTES = 1 << 18;

  private final PhotoFile file;
  private byte[] block = {};
  private long blockAt;
  private long at = 2;
  private int fills;
  private int scans;

  private JpegMarkers(PhotoFile file) {
    this.file = file;
  }

  /**
   * Refuses a JPEG with too many scans or fill bytes; what else may be wrong is left to the
   * decoder.
   */
  static void check(PhotoFile file) {
    new JpegMarkers(file).walk();
  }

  private void walk() {
    while (at + 4 <= file.size()) {
      if (next() != 0xff) {
        return;
      }
      int marker = next();
      while (marker == 0xff && at < file.size()) {
        filled();
        marker = next();
      }
      if (marker == EOI || marker == 0 || at + 2 > file.size()) {
        return;
      }
      if (marker == 0x01 || marker >= 0xd0 && marker <= 0xd7) {
        continue;
      }
      int length = next() << 8 | next();
      at += Math.max(0, length - 2);
      if (marker == SOS) {
        if (++scans > MOST_SCANS) {
          throw file.refusals()
              .unsupported("a JPEG with more than " + MOST_SCANS + " scans over its picture");
        }
        skipPicture();
      }
    }
  }

  /** Goes on to the marker that ends the entropy-coded data of a scan. */
  private void skipPicture() {
    while (at + 1 < file.size()) {
      if (next() != 0xff) {
        continue;
      }
      int after = next();
      while (after == 0xff && at < file.size()) {
        filled();
        after = next();
      }
      if (after != 0 && !(after >= 0xd0 && after <= 0xd7)) {
        at -= 2;
        return;
      }
    }
  }

  private void filled() {
    if (++fills > MOST_FILL_BYTES) {
      throw file.refusals()
          .unsupported("a JPEG with more than " + MOST_FILL_BYTES + " bytes that only fill it up");
    }
  }

  private int next() {
    if (at >= file.size()) {
      return -1;
    }
    if (at < blockAt || at >= blockAt + block.length) {
      blockAt = at;
      block = file.read(at, (int) Math.min(BLOCK_BYTES, file.size() - at));
    }
    return block[(int) (at++ - blockAt)] & 0xff;
  }
}
