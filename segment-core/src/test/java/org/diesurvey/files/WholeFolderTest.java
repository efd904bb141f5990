package org.diesurvey.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WholeFolderTest {
  @TempDir Path temp;

  @AfterEach
  void nobodyWatches() {
    Disk.watchedBy((what, file) -> {});
  }

  private static void write(Path folder, String text) {
    WholeFolder.write(
        folder,
        ResultKind.SURVEY,
        ReadFiles.NONE,
        fresh ->
            Disk.write(
                fresh.resolve("survey.json"),
                ("{\"diesurvey-survey\": " + text + "}").getBytes(StandardCharsets.UTF_8)));
  }

  private static void copy(Path from, Path to) throws IOException {
    List<Path> all;
    try (Stream<Path> walk = Files.walk(from)) {
      all = walk.toList();
    }
    for (Path p : all) {
      Files.copy(p, to.resolve(from.relativize(p).toString()), LinkOption.NOFOLLOW_LINKS);
    }
  }

  /** Disks take 255 bytes in a name; the folder beside the result must not need more. */
  @ParameterizedTest
  @ValueSource(ints = {3, 251, 255})
  void endedAtAnyStep_isTheOldOrTheNew_whateverTheLengthOfItsName(int letters) throws IOException {
    String name = "a".repeat(letters);
    Path world = Files.createDirectory(temp.resolve("world"));
    write(world.resolve(name), "1");
    Files.writeString(world.resolve(name).resolve("mine.txt"), "mine");
    List<Path> ends = new ArrayList<>();
    Disk.watchedBy(
        (what, file) -> {
          if (file.startsWith(world)) {
            Path end = temp.resolve("end " + ends.size());
            ends.add(end);
            copy(world, end);
          }
        });
    write(world.resolve(name), "2");
    nobodyWatches();
    assertTrue(ends.size() > 20, "ends " + ends.size());
    int old = 0;
    for (Path end : ends) {
      WholeFolder.restore(end);
      try (Stream<Path> left = Files.list(end)) {
        assertEquals(List.of(end.resolve(name)), left.toList());
      }
      assertEquals("mine", Files.readString(end.resolve(name).resolve("mine.txt")));
      assertTrue(OwnFolder.of(end.resolve(name), ResultKind.SURVEY).orElseThrow().whole());
      old += Files.readString(end.resolve(name).resolve("survey.json")).contains("1") ? 1 : 0;
    }
    assertTrue(old > 0 && old < ends.size(), old + " of " + ends.size());
  }

  @ParameterizedTest
  @ValueSource(strings = {"\u00E4", "\u4E00", "\uD83D\uDE00"})
  void lettersOfSeveralBytes_countAsBytes(String letter) {
    Assumptions.assumeTrue(
        "UTF-8".equals(System.getProperty("sun.jnu.encoding")), "names here are not in UTF-8");
    int bytes = letter.getBytes(StandardCharsets.UTF_8).length;
    for (int length : new int[] {239, 245, 255}) {
      Path folder = temp.resolve(letter.repeat(length / bytes));
      write(folder, "1");
      write(folder, "2");
      assertTrue(Files.isRegularFile(folder.resolve("survey.json")));
    }
  }
}
