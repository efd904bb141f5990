package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.vision.NativeLibrary;
import org.junit.jupiter.api.Test;
import org.opencv.core.Core;

class LicencesTest {
  private static final Path FOLDER = Path.of("src", "main", "licences");
  private static final Pattern LIBRARY = Pattern.compile("(.+?)-([0-9][^/]*)\\.jar");

  /** Libraries that only tests use, and our own modules. */
  private static final Pattern NOT_SHIPPED =
      Pattern.compile("(junit|opentest4j|apiguardian|surefire|segment|testdata).*");

  @Test
  void everyLibraryOnTheClassPath_isInTheNotice() throws IOException {
    String notice = Files.readString(FOLDER.resolve("NOTICE.txt"));
    String path =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    List<String> missing =
        Arrays.stream(path.split(Pattern.quote(File.pathSeparator)))
            .map(p -> Path.of(p).getFileName().toString())
            .filter(name -> name.endsWith(".jar") && !NOT_SHIPPED.matcher(name).matches())
            .filter(name -> !notice.contains(nameAndVersion(name)))
            .toList();
    assertEquals(List.of(), missing, "libraries without a line in NOTICE.txt");
    assertTrue(path.contains("smile-core"), "the class path was not the one of the program");
  }

  private static String nameAndVersion(String jar) {
    Matcher m = LIBRARY.matcher(jar);
    assertTrue(m.matches(), jar);
    return m.group(1) + " " + m.group(2);
  }

  /** LGPL-3.0, section 4: a copy of it and of the GPL goes with the combined work. */
  @Test
  void textsThatTheNoticeNames_areThere() throws IOException {
    Matcher named =
        Pattern.compile("[A-Za-z][A-Za-z-]*-[0-9.]+\\.txt")
            .matcher(Files.readString(FOLDER.resolve("NOTICE.txt")));
    int found = 0;
    while (named.find()) {
      assertTrue(Files.size(FOLDER.resolve(named.group())) > 1000, named.group());
      found++;
    }
    assertTrue(found >= 4, "found " + found);
  }

  /** What the native libraries say that they were built from, against the notice and the texts. */
  @Test
  void partsOfTheNativeLibraries_areInTheNoticeAndHaveTheirTexts() throws IOException {
    NativeLibrary.loadAhead();
    String notice = Files.readString(FOLDER.resolve("NOTICE.txt"));
    String texts = Files.readString(FOLDER.resolve("OpenCV-parts.txt"));
    Map<String, String> parts =
        Map.of(
            "ZLib", "zlib",
            "JPEG", "libjpeg-turbo",
            "WEBP", "libwebp",
            "PNG", "libpng",
            "TIFF", "libtiff",
            "JPEG 2000", "OpenJPEG",
            "OpenEXR", "OpenEXR",
            "Protobuf", "Protobuf",
            "Flatbuffers", "FlatBuffers");
    Matcher built =
        Pattern.compile("(?m)^ +([A-Za-z0-9 ]+): +(?:build|builtin)\\S* ?\\(?(.*?)\\)?$")
            .matcher(Core.getBuildInformation());
    int found = 0;
    while (built.find()) {
      String name = parts.get(built.group(1));
      assertNotNull(name, "no name is known of the part " + built.group());
      assertTrue(notice.contains(name), name);
      assertTrue(texts.contains(name), name);
      Matcher version = Pattern.compile("\\d+\\.\\d+(\\.\\d+)?").matcher(built.group(2));
      assertTrue(!version.find() || notice.contains(version.group()), built.group());
      found++;
    }
    assertTrue(found >= 7, found + " parts in the build information");
  }
}
