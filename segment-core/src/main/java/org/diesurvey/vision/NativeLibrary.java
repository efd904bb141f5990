package org.diesurvey.vision;

import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Optional;
import nu.pattern.OpenCV;
import org.opencv.core.Core;

/**
 * Loads the native half of OpenCV once, single threaded: parallelism is over bands, in Java.
 *
 * <p>The library (65 MB) lies packed in its jar. It is unpacked into the folder that the system
 * property {@value #FOLDER} names, where the next process finds it, which saves half a second of
 * processor time; without that property into a temporary file, which is gone as soon as it is
 * loaded, so that a process that is killed leaves nothing behind.
 */
public final class NativeLibrary {
  /** System property: a folder that nobody else can write, for the unpacked library. */
  public static final String FOLDER = "diesurvey.nativeFolder";

  private NativeLibrary() {}

  static {
    load();
    Core.setNumThreads(1);
  }

  /** Returns once the library is loaded. */
  static void ensureLoaded() {
    // The static initialiser has run by the time this method is entered.
  }

  /** Begins to load the library in the background, so that a photograph can be read meanwhile. */
  public static void loadAhead() {
    Thread t = new Thread(NativeLibrary::ensureLoaded, "native library");
    t.setDaemon(true);
    t.start();
  }

  private static void load() {
    String os = System.getProperty("os.name").toLowerCase(Locale.ROOT);
    Optional<URL> packed = packed();
    String folder = System.getProperty(FOLDER);
    if (packed.isPresent() && folder != null) {
      try {
        System.load(unpacked(packed.get(), Path.of(folder)).toString());
        return;
      } catch (IOException e) {
        // The folder cannot be written: as without it.
      }
    }
    if (packed.isPresent() && !os.startsWith("windows")) {
      try {
        loadOnce(packed.get());
        return;
      } catch (IOException e) {
        // The library's own loader tells what is wrong.
      }
    }
    OpenCV.loadLocally();
  }

  /** The library of this computer; systems and processors are named as in the jar. */
  static Optional<URL> packed() {
    String os = System.getProperty("os.name").toLowerCase(Locale.ROOT);
    String system = os.startsWith("windows") ? "windows" : os.startsWith("mac") ? "osx" : "linux";
    String arch =
        switch (System.getProperty("os.arch").toLowerCase(Locale.ROOT)) {
          case "amd64", "x86_64" -> "x86_64";
          case "aarch64", "arm64" -> "ARMv8";
          default -> "none";
        };
    String name = System.mapLibraryName(Core.NATIVE_LIBRARY_NAME);
    return Optional.ofNullable(
        OpenCV.class.getResource("/nu/pattern/opencv/" + system + "/" + arch + "/" + name));
  }

  /**
   * The library in a folder, under a name that tells its checksum; put there if it is missing.
   *
   * @throws IOException if the folder cannot be written, or the library is not in a jar
   */
  static Path unpacked(URL packed, Path folder) throws IOException {
    URLConnection connection = packed.openConnection();
    if (!(connection instanceof JarURLConnection jar)) {
      throw new IOException(packed + " is not in a jar");
    }
    String name = packed.getPath().substring(packed.getPath().lastIndexOf('/') + 1);
    Path file =
        folder.toAbsolutePath().resolve(Long.toHexString(jar.getJarEntry().getCrc())).resolve(name);
    if (!Files.isRegularFile(file)) {
      Files.createDirectories(file.getParent());
      Path fresh = Files.createTempFile(file.getParent(), "unpacking", ".part");
      try (InputStream in = packed.openStream()) {
        Files.copy(in, fresh, StandardCopyOption.REPLACE_EXISTING);
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
      } finally {
        Files.deleteIfExists(fresh);
      }
    }
    return file;
  }

  /** A file that is mapped may be deleted, but not on Windows. */
  private static void loadOnce(URL packed) throws IOException {
    Path file = Files.createTempFile("diesurvey-", System.mapLibraryName("opencv"));
    try (InputStream in = packed.openStream()) {
      Files.copy(in, file, StandardCopyOption.REPLACE_EXISTING);
      System.load(file.toString());
    } finally {
      Files.deleteIfExists(file);
    }
  }
}
