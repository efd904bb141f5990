package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.diesurvey.archive.ArchiveTable;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A batch on a real cluster of Apache Spark, which is started here from its published jars: a
 * standalone master and two workers. One worker is killed in the middle, and slow tasks are run
 * twice; the archive must be that of a batch on one computer, byte for byte.
 */
class SparkBatchTest {
  private static final String MOMENT = "1769860800";
  private static final int PHOTOS = 6;

  @TempDir private Path folder;

  @Test
  void workerKilledInTheMiddle_archiveIsThatOfOneComputer() throws Exception {
    Assumptions.assumeTrue(
        Files.isRegularFile(SparkCluster.JARS) && onClassPath(),
        "the module segment-spark is not built: no Spark to test with");
    Path photos = photos();
    Path here = folder.resolve("here");
    Map<String, String> fixed = Map.of("SOURCE_DATE_EPOCH", MOMENT);
    Call local =
        Call.with(
            fixed, false, "batch", photos, "--um-per-px", "1", "--no-isolate", "--archive", here);
    assertEquals(1, local.code(), local.err());
    Path program = PackedProgram.make(Files.createDirectories(folder.resolve("program")));
    try (SparkCluster cluster = new SparkCluster(Files.createDirectory(folder.resolve("c")))) {
      Path there = folder.resolve("there");
      Process batch = start(cluster, program, "one", photos.toString(), there);
      while (batch.isAlive() && surveys(there) < 2) {
        Thread.sleep(20);
      }
      assertTrue(surveys(there) < PHOTOS, "the batch was too quick to be disturbed");
      cluster.killOneWorker();
      assertTrue(batch.waitFor(400, TimeUnit.SECONDS), "the batch came to no end");
      assertEquals(1, batch.exitValue(), output("one"));
      assertTrue(
          output("one").contains(PHOTOS + " surveyed, 0 unchanged, 1 rejected"), output("one"));
      assertTrue(cluster.log("master").contains("Removing worker"), "the master lost a worker");
      assertEquals(files(here), files(there), output("one"));
      assertEquals(rows(here), rows(there));
      assertEquals(0, Call.of("archive", "check", there).code());

      Path stored = folder.resolve("stored");
      Path few = Files.createDirectories(folder.resolve("few"));
      for (String name : new String[] {"die-1.png", "cut.png"}) {
        Files.copy(photos.resolve(name), few.resolve(name));
      }
      Process second = start(cluster, program, "two", few.toUri().toString(), stored);
      assertTrue(second.waitFor(400, TimeUnit.SECONDS), "the batch came to no end");
      assertEquals(1, second.exitValue(), output("two"));
      assertTrue(output("two").contains("1 surveyed, 0 unchanged, 1 rejected"), output("two"));
      Map<String, String> same = files(here);
      same.keySet().retainAll(files(stored).keySet());
      same.keySet().removeIf(name -> !name.startsWith("photos/"));
      Map<String, String> read = files(stored);
      read.keySet().removeIf(name -> !name.startsWith("photos/"));
      assertEquals(same, read);
      String place = rows(stored).get(0).get(0).toString();
      assertTrue(place.startsWith("file:/"), "read through Hadoop's file systems: " + place);
      assertTrue(output("two").contains(place), "named by its URI: " + output("two"));
    }
  }

  private static boolean onClassPath() {
    return SparkBatchTest.class.getResource("/org/diesurvey/spark/SparkBatch.class") != null;
  }

  /** Small dies, and one that is cut off. */
  private Path photos() throws IOException {
    Path photos = Files.createDirectories(folder.resolve("photos"));
    Path drawn = Files.createDirectories(folder.resolve("drawn"));
    DrawOptions options = DrawOptions.defaults().withUmPerPx(1).withMaxMegapixels(0.2);
    for (int i = 0; i < PHOTOS; i++) {
      Path photo =
          DieFiles.write(DieDrawing.draw(700 + i, options), drawn, "die-" + i, DieFiles.Format.PNG);
      Files.copy(photo, photos.resolve("die-" + i + ".png"));
    }
    byte[] whole = Files.readAllBytes(photos.resolve("die-0.png"));
    Files.write(photos.resolve("cut.png"), Arrays.copyOf(whole, whole.length / 2));
    return photos;
  }

  private Process start(SparkCluster cluster, Path program, String name, String input, Path archive)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-jar", program.toString(), "batch", input, "--um-per-px", "1"));
    command.addAll(List.of("--archive", archive.toString(), "--engine", "spark"));
    command.addAll(List.of("--spark-options", cluster.options()));
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve(name + ".txt").toFile());
    builder.environment().putAll(SparkCluster.environment());
    builder.environment().put("SPARK_HOME", cluster.home().toString());
    builder.environment().put("SOURCE_DATE_EPOCH", MOMENT);
    return builder.start();
  }

  private String output(String name) throws IOException {
    return Files.readString(folder.resolve(name + ".txt"), StandardCharsets.UTF_8);
  }

  private static int surveys(Path archive) throws IOException {
    Path photos = archive.resolve("photos");
    if (!Files.isDirectory(photos)) {
      return 0;
    }
    try (Stream<Path> all = Files.list(photos)) {
      return (int) all.count();
    }
  }

  /** All files with their bytes, but for the database, whose pages depend on the order of work. */
  private static Map<String, String> files(Path archive) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> all = Files.walk(archive)) {
      for (Path p : all.filter(Files::isRegularFile).toList()) {
        String name = archive.relativize(p).toString();
        if (!name.startsWith("archive.sqlite") && !name.startsWith(".")) {
          files.put(name, new String(Files.readAllBytes(p), StandardCharsets.ISO_8859_1));
        }
      }
    }
    assertTrue(files.size() > PHOTOS, "files " + files.keySet());
    files.replaceAll((name, bytes) -> bytes.length() + " " + bytes.hashCode());
    return files;
  }

  private static List<List<Object>> rows(Path archive) {
    return ArchiveTable.read(
            archive,
            "SELECT path, outcome, reason, sentence, s.sha256, p.folder, p.survey_key, f.name,"
                + " f.sha256 FROM source s LEFT JOIN photo p USING (photo_id) LEFT JOIN file f"
                + " USING (photo_id) ORDER BY 1, 8",
            List.of())
        .rows();
  }
}
