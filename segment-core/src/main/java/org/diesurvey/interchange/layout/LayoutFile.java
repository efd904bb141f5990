package org.diesurvey.interchange.layout;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.zip.GZIPInputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.interchange.Refused;

/** The file of a layout: a GDSII stream, which may be packed with gzip. */
final class LayoutFile {
  /** Largest layout, bytes, unpacked. */
  private static final int LARGEST_BYTES = 1 << 30;

  private final String name;
  private final String sha256;
  private final byte[] stream;

  private LayoutFile(String name, String sha256, byte[] stream) {
    this.name = name;
    this.sha256 = sha256;
    this.stream = stream;
  }

  static LayoutFile of(Path layout) {
    byte[] bytes;
    try {
      if (Files.size(layout) > LARGEST_BYTES) {
        throw tooLarge(layout.toString());
      }
      bytes = Files.readAllBytes(layout);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          layout + ": the layout cannot be read; check the name and the permissions.",
          e);
    }
    Path file = layout.getFileName();
    return new LayoutFile(
        file == null ? "" : file.toString(), sum(bytes), unpacked(bytes, layout.toString()));
  }

  private static byte[] unpacked(byte[] bytes, String place) {
    if (bytes.length < 2 || (bytes[0] & 0xff) != 0x1f || (bytes[1] & 0xff) != 0x8b) {
      return bytes;
    }
    try (InputStream in = new GZIPInputStream(new ByteArrayInputStream(bytes))) {
      byte[] all = in.readNBytes(LARGEST_BYTES);
      if (in.read() >= 0) {
        throw tooLarge(place);
      }
      return all;
    } catch (IOException e) {
      throw Refused.file(place, "the packed layout is damaged; pack it again", e);
    }
  }

  private static DieInputException tooLarge(String place) {
    return Refused.file(place, "a layout may have at most 1 GiB; export the block alone");
  }

  private static String sum(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Without folders. */
  String name() {
    return name;
  }

  /** Of the file as it is, packed or not. */
  String sha256() {
    return sha256;
  }

  /** The bytes, unpacked; not to be changed. */
  byte[] stream() {
    return stream;
  }

  /** What is to be kept when the bytes are not needed any more. */
  LayoutFile withoutStream() {
    return new LayoutFile(name, sha256, new byte[0]);
  }
}
