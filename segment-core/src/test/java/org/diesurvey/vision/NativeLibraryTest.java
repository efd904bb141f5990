package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NativeLibraryTest {
  @TempDir private Path folder;

  /** Filters a picture and ends without the clean end of a process. */
  static final class Killed {
    private Killed() {}

    public static void main(String[] args) {
      ImageFilters.gaussian(new GrayRaster(8, 8), 1);
      Runtime.getRuntime().halt(3);
    }
  }

  @Test
  void processThatIsKilled_leavesNoLibraryBehind() throws Exception {
    Assumptions.assumeFalse(
        System.getProperty("os.name").startsWith("Windows"), "Windows keeps a loaded file");
    Path temporary = Files.createDirectory(folder.resolve("tmp"));
    assertEquals(3, run("-Djava.io.tmpdir=" + temporary));
    assertEquals(List.of(), below(temporary));
  }

  @Test
  void folderForTheLibrary_isFilledOnceAndUsedThen() throws Exception {
    Path kept = folder.resolve("kept");
    String[] words = {"-Djava.io.tmpdir=" + folder, "-D" + NativeLibrary.FOLDER + "=" + kept};
    assertEquals(3, run(words));
    List<Path> files = below(kept);
    assertEquals(1, files.size(), "files " + files);
    try (InputStream packed = NativeLibrary.packed().orElseThrow().openStream();
        InputStream file = Files.newInputStream(files.get(0))) {
      assertTrue(Arrays.equals(packed.readAllBytes(), file.readAllBytes()), "the same bytes");
    }
    FileTime before = Files.getLastModifiedTime(files.get(0));
    assertEquals(3, run(words));
    assertEquals(files, below(kept));
    assertEquals(before, Files.getLastModifiedTime(files.get(0)));
  }

  @Test
  void folderThatIsNone_isDoneWithout() throws Exception {
    Path file = Files.writeString(folder.resolve("file"), "");
    assertEquals(3, run("-D" + NativeLibrary.FOLDER + "=" + file));
  }

  private static List<Path> below(Path place) throws IOException {
    try (Stream<Path> all = Files.walk(place)) {
      return all.filter(Files::isRegularFile)
          .filter(p -> !p.toString().contains("hsperfdata"))
          .sorted()
          .toList();
    }
  }

  private static int run(String... words) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of(words));
    command.addAll(List.of("-cp", classPath(), Killed.class.getName()));
    return new ProcessBuilder(command).inheritIO().start().waitFor();
  }

  /** Some runners of tests load them with a class loader of their own. */
  private static String classPath() {
    if (Killed.class.getClassLoader() instanceof URLClassLoader loader) {
      return Arrays.stream(loader.getURLs())
          .map(URL::getPath)
          .collect(Collectors.joining(java.io.File.pathSeparator));
    }
    return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
  }
}
