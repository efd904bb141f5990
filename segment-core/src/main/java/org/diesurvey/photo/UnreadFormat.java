package org.diesurvey.photo;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Formats that are not read, told by their first bytes, with a program that is free and common to
 * convert them.
 *
 * @param name what the file is
 * @param remedy how to convert it, for the end of a sentence
 */
record UnreadFormat(String name, String remedy) {
  private static final String MAGICK =
      "convert it, for example with ImageMagick: magick IN.%s OUT.png";

  /** What a file is that cannot be read, if it is known. */
  static Optional<UnreadFormat> of(byte[] head) {
    String text = new String(head, StandardCharsets.ISO_8859_1);
    if (text.startsWith("\u00ff\u004f\u00ff\u0051") || at(text, 4, "jP  ")) {
      return known("a JPEG 2000 picture", "jp2");
    }
    if (at(text, 4, "ftyp")) {
      return at(text, 8, "avi")
          ? known("an AVIF picture", "avif")
          : known("a HEIC picture (or another of its container)", "heic");
    }
    if (text.startsWith("RIFF") && at(text, 8, "WEBP")) {
      return known("a WebP picture", "webp");
    }
    if (text.startsWith("GIF8")) {
      return known("a GIF picture", "gif");
    }
    if (text.startsWith("<?xml") || text.startsWith("<Image")) {
      return Optional.of(
          new UnreadFormat(
              "an XML text, perhaps the head of a Deep Zoom folder",
              "join the tiles of the finest level into one picture, for example with libvips: vips"
                  + " arrayjoin"));
    }
    return Optional.empty();
  }

  /** What a folder is, if it holds a picture in pieces. */
  static Optional<UnreadFormat> ofFolder(Path folder) {
    Path name = folder.getFileName();
    boolean tiles = name != null && name.toString().endsWith("_files");
    return tiles
        ? Optional.of(
            new UnreadFormat(
                "the tiles of a Deep Zoom picture",
                "join those of the finest level into one picture, for example with ImageMagick:"
                    + " magick montage, or libvips: vips arrayjoin"))
        : Optional.empty();
  }

  private static Optional<UnreadFormat> known(String name, String ending) {
    return Optional.of(
        new UnreadFormat(name, String.format(java.util.Locale.ROOT, MAGICK, ending)));
  }

  private static boolean at(String text, int place, String wanted) {
    return text.startsWith(wanted, place);
  }
}
