package org.diesurvey.archive;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * SHA-256 (FIPS 180-4) of files, and the list of them that lies in each folder: lines of 64 hex
 * digits, two spaces and the name, as {@code sha256sum -c} of GNU coreutils reads them.
 */
final class Checksums {
  /** Name of the list. */
  static final String LIST = "checksums.sha256";

  private static final int HEX_DIGITS = 64;

  private Checksums() {}

  static String of(Path file) throws IOException {
    MessageDigest digest = digest();
    byte[] block = new byte[1 << 16];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(block); n >= 0; n = in.read(block)) {
        digest.update(block, 0, n);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  static String of(String text) {
    return HexFormat.of().formatHex(digest().digest(text.getBytes(StandardCharsets.UTF_8)));
  }

  /** Checksums of all plain files in a folder but the list itself, by name. */
  static SortedMap<String, String> inside(Path folder) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.list(folder)) {
      files = all.filter(Files::isRegularFile).toList();
    }
    SortedMap<String, String> sums = new TreeMap<>();
    for (Path file : files) {
      String name = file.getFileName().toString();
      if (!name.equals(LIST)) {
        sums.put(name, of(file));
      }
    }
    return sums;
  }

  /**
   * Completes a folder: its files are forced to disk and the list of their checksums is laid beside
   * them. Its presence says that the folder is complete.
   */
  static void seal(Path folder) throws IOException {
    Path list = folder.resolve(LIST);
    if (!Files.isRegularFile(list)) {
      String text = list(inside(folder));
      DurableFiles.forceInside(folder);
      DurableFiles.write(list, text);
    }
  }

  /** The checksums in a sealed folder, by name. */
  static SortedMap<String, String> sealed(Path folder) throws IOException {
    SortedMap<String, String> sums = new TreeMap<>();
    for (String line : Files.readAllLines(folder.resolve(LIST), StandardCharsets.UTF_8)) {
      sums.put(line.substring(HEX_DIGITS + 2), line.substring(0, HEX_DIGITS));
    }
    return sums;
  }

  /** The list as text. */
  static String list(SortedMap<String, String> sums) {
    StringBuilder text = new StringBuilder();
    sums.forEach((name, sum) -> text.append(sum).append("  ").append(name).append('\n'));
    return text.toString();
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
