package org.diesurvey.photo;

import java.util.Optional;

/** The formats that are read, told by their first bytes; the name's ending does not matter. */
enum FileFormat {
  PNG,
  JPEG,
  TIFF,
  BMP;

  /** Bytes that {@link #of} wants to see. */
  static final int MAGIC_BYTES = 12;

  /**
   * The format of a file that starts with these bytes: PNG signature (ISO/IEC 15948, 5.2), JPEG SOI
   * and a further marker (ITU-T T.81, B.1.1.3), TIFF 6.0 section 2 and BigTIFF byte order with 42
   * or 43.
   */
  static Optional<FileFormat> of(byte[] head) {
    if (startsWith(head, 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a)) {
      return Optional.of(PNG);
    }
    if (startsWith(head, 0xff, 0xd8, 0xff)) {
      return Optional.of(JPEG);
    }
    boolean tiff =
        startsWith(head, 'I', 'I', 42, 0)
            || startsWith(head, 'I', 'I', 43, 0)
            || startsWith(head, 'M', 'M', 0, 42)
            || startsWith(head, 'M', 'M', 0, 43);
    if (startsWith(head, 'B', 'M') && head.length >= MAGIC_BYTES) {
      return Optional.of(BMP);
    }
    return tiff ? Optional.of(TIFF) : Optional.empty();
  }

  private static boolean startsWith(byte[] head, int... magic) {
    if (head.length < magic.length) {
      return false;
    }
    for (int i = 0; i < magic.length; i++) {
      if ((head[i] & 0xff) != magic[i]) {
        return false;
      }
    }
    return true;
  }
}
