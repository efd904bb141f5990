package org.diesurvey.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * SHA-256 (FIPS 180-4) of files, and the list of them that lies in each folder: lines of 64 hex
 * digits, two spaces and the name, as {@code sha256sum -c} of GNU coreutils reads them; names below
 * folders have slashes.
 */
public final class Checksums {
  /** Name of the list in a folder. */
  public static final String LIST = "checksums.sha256";

  /** The list while it is written. */
  static final String BEGUN = "." + LIST + ".new";

  private static final Pattern LINE = Pattern.compile("([0-9a-f]{64})  (.+)");

  private Checksums() {}

  /** SHA-256 of a file, in hexadecimal digits. */
  public static String of(Path file) throws IOException {
    MessageDigest digest = digest();
    byte[] block = new byte[1 << 16];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(block); n >= 0; n = in.read(block)) {
        digest.update(block, 0, n);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /** SHA-256 of a text in UTF-8. */
  public static String of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  static String of(byte[] bytes) {
    return HexFormat.of().formatHex(digest().digest(bytes));
  }

  /** Checksums of all plain files below a folder but the list itself, by name. */
  static SortedMap<String, String> inside(Path folder) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.walk(folder)) {
      files = all.filter(Disk::isFile).toList();
    }
    SortedMap<String, String> sums = new TreeMap<>();
    for (Path file : files) {
      String name = folder.relativize(file).toString().replace('\\', '/');
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
  public static void seal(Path folder) throws IOException {
    Path list = folder.resolve(LIST);
    if (!Disk.there(list)) {
      String text = list(inside(folder));
      Disk.forceInside(folder);
      Path fresh = folder.resolve(BEGUN);
      Disk.remove(fresh);
      Disk.write(fresh, text.getBytes(StandardCharsets.UTF_8));
      Disk.move(fresh, list);
    }
  }

  /** Adds a file to a complete folder that is not yet in its place, and to its list. */
  public static void add(Path folder, String name, byte[] bytes) throws IOException {
    SortedMap<String, String> sums = sealed(folder);
    Disk.write(folder.resolve(name), bytes);
    sums.put(name, of(bytes));
    Path fresh = folder.resolve(BEGUN);
    Disk.write(fresh, list(sums).getBytes(StandardCharsets.UTF_8));
    Disk.replace(fresh, folder.resolve(LIST));
  }

  /**
   * The checksums in a sealed folder, by name.
   *
   * @throws IOException if there is no list, or what lies there is none
   */
  public static SortedMap<String, String> sealed(Path folder) throws IOException {
    SortedMap<String, String> sums = new TreeMap<>();
    read(folder.resolve(LIST)).forEach((name, all) -> sums.put(name, all.iterator().next()));
    return sums;
  }

  /**
   * A list; while files are replaced one by one it has the old and the new checksum of each.
   *
   * @throws IOException if there is none, or what lies there is none
   */
  static SortedMap<String, Set<String>> read(Path list) throws IOException {
    SortedMap<String, Set<String>> sums = new TreeMap<>();
    for (String line : Files.readAllLines(list, StandardCharsets.UTF_8)) {
      Matcher m = LINE.matcher(line);
      if (!m.matches()) {
        throw new IOException(list + ": this is no list of checksums");
      }
      sums.computeIfAbsent(m.group(2), n -> new TreeSet<>()).add(m.group(1));
    }
    return sums;
  }

  /**
   * A list with further checksums of the same files: what is on its way into their place.
   *
   * @param list as it is; may be missing
   */
  public static String both(Path list, Map<String, String> sums) throws IOException {
    SortedMap<String, Set<String>> all = Files.exists(list) ? read(list) : new TreeMap<>();
    sums.forEach((name, sum) -> all.computeIfAbsent(name, n -> new TreeSet<>()).add(sum));
    return text(all);
  }

  /** Whether a list has this file with this checksum, among others of it. */
  public static boolean lists(Path list, String name, String sum) throws IOException {
    return read(list).getOrDefault(name, Set.of()).contains(sum);
  }

  static String text(SortedMap<String, Set<String>> sums) {
    StringBuilder text = new StringBuilder();
    sums.forEach((name, all) -> all.forEach(sum -> text.append(line(name, sum))));
    return text.toString();
  }

  /** The list as text. */
  public static String list(Map<String, String> sums) {
    StringBuilder text = new StringBuilder();
    sums.forEach((name, sum) -> text.append(line(name, sum)));
    return text.toString();
  }

  private static String line(String name, String sum) {
    return sum + "  " + name + "\n";
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
