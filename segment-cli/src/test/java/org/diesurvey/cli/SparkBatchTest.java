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
import java.util.jar.Manifest;
import java.util.stream.Stream;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A batch on a real cluster of Apache Spark, which is started here from its published jars: a
 * standalone master and two workers. One worker is killed in the middle, and slow tasks are run
 * twice; the archive must be that of a batch on one computer, byte for byte, on a disk and in a
 * store that cannot rename.
 */
class SparkBatchTest {
  private static final String MOMENT = "1769860800";
  private static final int PHOTOS = 6;
  private static final String STORE = "shelf://lab/lab/";

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
      Process batch = start(cluster, program, "one", photos.toString(), there.toString());
      killInTheMiddle(cluster, 1, batch, there);
      requireAllSurveyed(batch, "one");
      assertTrue(cluster.log("master").contains("Removing worker"), "the master lost a worker");
      assertEquals(files(here), files(there), output("one"));
      assertEquals(rows(here), rows(there));
      assertEquals(0, Call.of("archive", "check", there).code());

      cluster.addWorker();
      Path lab = Files.createDirectories(folder.resolve("store").resolve("lab"));
      Files.move(photos, lab.resolve("photos"));
      Path stored = lab.resolve("here");
      batch = start(cluster, program, "two", STORE + "photos", STORE + "here/");
      killInTheMiddle(cluster, 3, batch, stored);
      requireAllSurveyed(batch, "two");
      assertTrue(output("two").contains(STORE + "here/index.html"), output("two"));
      assertTrue(output("two").contains(STORE + "photos/cut.png is cut"), output("two"));
      assertEquals(files(here), files(stored), output("two"));
      assertEquals(rows(here), rows(stored));
      assertEquals(0, Call.of("archive", "check", stored).code());
      try (Stream<Path> inside = Files.list(stored)) {
        assertEquals(
            List.of(),
            inside.filter(p -> p.getFileName().toString().startsWith(".")).toList(),
            "nothing of the run is left");
      }

      batch = submit(cluster, program, "three", STORE + "photos", STORE + "here");
      assertTrue(batch.waitFor(400, TimeUnit.SECONDS), "the batch came to no end");
      assertEquals(1, batch.exitValue(), output("three"));
      assertTrue(
          output("three").contains("0 surveyed, " + PHOTOS + " unchanged, 1 rejected"),
          output("three"));
      assertEquals(files(here), files(stored), output("three"));
    }
  }

  private void killInTheMiddle(SparkCluster cluster, int worker, Process batch, Path archive)
      throws Exception {
    while (batch.isAlive() && surveys(archive) < 2) {
      Thread.sleep(20);
    }
    assertTrue(surveys(archive) < PHOTOS, "the batch was too quick to be disturbed");
    cluster.killWorker(worker);
  }

  private void requireAllSurveyed(Process batch, String name) throws Exception {
    assertTrue(batch.waitFor(400, TimeUnit.SECONDS), "the batch came to no end");
    assertEquals(1, batch.exitValue(), output(name));
    assertTrue(output(name).contains(PHOTOS + " surveyed, 0 unchanged, 1 rejected"), output(name));
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

  /** As by bin/diesurvey. */
  private Process start(
      SparkCluster cluster, Path program, String name, String input, String archive)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-jar", program.toString(), "batch", input, "--um-per-px", "1"));
    command.addAll(List.of("--archive", archive, "--engine", "spark"));
    command.addAll(List.of("--spark-options", options(cluster)));
    return process(cluster, name, command);
  }

  /** By spark-submit itself. */
  private Process submit(
      SparkCluster cluster, Path program, String name, String input, String archive)
      throws IOException {
    List<String> command = new ArrayList<>();
    command.add(cluster.home().resolve("bin").resolve("spark-submit").toString());
    command.addAll(List.of(options(cluster).split(" ")));
    command.addAll(List.of(program.toString(), "batch", input, "--um-per-px", "1"));
    command.addAll(List.of("--archive", archive));
    return process(cluster, name, command);
  }

  /** With a store that both Spark and its executors know. */
  private String options(SparkCluster cluster) throws IOException {
    Path shelf = folder.resolve("shelf.jar");
    if (!Files.exists(shelf)) {
      PackedProgram.jar(SparkCluster.STORE_CLASSES, shelf, new Manifest());
    }
    return cluster.options()
        + " --jars "
        + shelf
        + " --conf spark.hadoop.fs.shelf.impl=org.diesurvey.spark.ShelfFileSystem"
        + " --conf spark.hadoop.fs.shelf.root="
        + folder.resolve("store");
  }

  private Process process(SparkCluster cluster, String name, List<String> command)
      throws IOException {
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
