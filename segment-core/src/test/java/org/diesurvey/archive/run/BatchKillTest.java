package org.diesurvey.archive.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Kills a batch of 40 photographs at random moments of its work, told by how many folders are
 * complete, so that neither a slow start nor a fast end is what gets killed. Three kills in the
 * ordinary build; the property diesurvey.kills asks for more, for example 50.
 */
class BatchKillTest {
  private static final int PHOTOS = 40;

  @TempDir private Path folder;

  @Test
  void killedBatches_endInTheArchiveOfAnUndisturbedOne() throws Exception {
    Path sample = SampleArchive.survey(folder);
    Path photos = folder.resolve("photos");
    SampleArchive.photos(photos, PHOTOS);
    Path whole = folder.resolve("whole");
    Process first = start(sample, photos, whole);
    assertTrue(first.waitFor(120, TimeUnit.SECONDS));
    assertEquals(0, first.exitValue(), "the undisturbed batch");
    Random random = new Random(7);
    Path killed = folder.resolve("killed");
    int kills = Integer.getInteger("diesurvey.kills", 3);
    int hit = 0;
    for (int i = 0; i < kills; i++) {
      if (i % 5 == 0) {
        Disk.removeMade(killed);
      }
      Process p = start(sample, photos, killed);
      int target = complete(killed);
      target += 1 + random.nextInt(Math.max(1, (PHOTOS - target) / 2));
      while (p.isAlive() && complete(killed) < target) {
        Thread.sleep(1);
      }
      Thread.sleep(random.nextInt(20));
      hit += p.isAlive() && complete(killed) < PHOTOS ? 1 : 0;
      p.destroyForcibly().waitFor();
      if (i % 5 == 4 || i == kills - 1) {
        Process last = start(sample, photos, killed);
        assertTrue(last.waitFor(120, TimeUnit.SECONDS));
        assertEquals(0, last.exitValue());
        assertEquals(files(whole), files(killed), "after kill " + i);
        assertEquals(rows(whole), rows(killed));
        assertEquals(List.of(), ArchiveCheck.of(killed).findings());
      }
    }
    assertTrue(hit > kills / 2, hit + " of " + kills + " kills were in the middle of the work");
  }

  private static Process start(Path sample, Path photos, Path archive) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xshare:auto",
            "-XX:TieredStopAtLevel=1",
            "-Djava.awt.headless=true",
            "-cp",
            SampleArchive.classPath(),
            KilledBatch.class.getName(),
            sample.toString(),
            photos.toString(),
            archive.toString())
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  private static int complete(Path archive) throws IOException {
    Path photos = archive.resolve("photos");
    if (!Files.isDirectory(photos)) {
      return 0;
    }
    try (Stream<Path> all = Files.list(photos)) {
      return (int) all.count();
    }
  }

  /** Checksums of all files but the database, whose pages depend on the order of work. */
  private static Map<String, String> files(Path archive) throws IOException {
    Map<String, String> sums = new TreeMap<>();
    try (Stream<Path> all = Files.walk(archive)) {
      for (Path p : all.filter(Files::isRegularFile).toList()) {
        if (!p.getFileName().toString().startsWith("archive.sqlite")) {
          sums.put(archive.relativize(p).toString(), Checksums.of(p));
        }
      }
    }
    assertTrue(sums.size() > 3 * PHOTOS, "files " + sums.size());
    return sums;
  }

  private static List<List<Object>> rows(Path archive) {
    return ArchiveTable.read(
            archive,
            "SELECT path, outcome, p.folder, p.survey_key, f.name, f.sha256 FROM source s JOIN"
                + " photo p USING (photo_id) JOIN file f USING (photo_id) ORDER BY 1, 5",
            List.of())
        .rows();
  }
}
