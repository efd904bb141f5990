package org.diesurvey.archive.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.diesurvey.archive.query.ArchiveTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * Writes that the system refuses in the middle of a batch. The limit on the size of a file
 * (RLIMIT_FSIZE) makes real writes fail, the database's too, as a full disk does.
 */
@EnabledOnOs(OS.LINUX)
class DiskFullTest {
  private static final int PHOTOS = 90;

  @TempDir private Path folder;

  @Test
  void refusedWrites_endTheRun_andTheNextOneFinishesIt() throws Exception {
    Path sample = SampleArchive.survey(folder);
    Path photos = folder.resolve("photos");
    SampleArchive.photos(photos, PHOTOS);
    Path archive = folder.resolve("archive");
    List<String> batch = new ArrayList<>();
    batch.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    batch.addAll(List.of("-XX:TieredStopAtLevel=1", "-Djava.awt.headless=true"));
    batch.addAll(List.of("-XX:-UsePerfData", "-Xshare:auto", "-cp", SampleArchive.classPath()));
    batch.add(KilledBatch.class.getName());
    batch.addAll(List.of(sample.toString(), photos.toString(), archive.toString()));
    // The journal of the database passes 2 MiB after some photographs; its library is smaller.
    List<String> limited =
        new ArrayList<>(List.of("bash", "-c", "ulimit -f 2048; exec \"$@\"", "-"));
    limited.addAll(batch);
    assertTrue(run(limited, "limited") != 0, "the limit was not met");
    assertTrue(said("limited").contains("cannot be"), said("limited"));
    int kept = ArchiveTable.read(archive, "SELECT * FROM photo", List.of()).rows().size();
    assertTrue(kept > 0 && kept < PHOTOS, "surveys kept: " + kept);
    assertEquals(List.of(), missing(archive));
    assertEquals(0, run(batch, "rest"), said("rest"));
    assertEquals(
        PHOTOS, ArchiveTable.read(archive, "SELECT * FROM photo", List.of()).rows().size());
    assertEquals(List.of(), ArchiveCheck.of(archive).findings());
  }

  /**
   * A survey whose rows could not be written may lie there whole; the next run notes it and makes
   * the pages.
   */
  private static List<ArchiveCheck.Finding> missing(Path archive) {
    return ArchiveCheck.of(archive).findings().stream()
        .filter(f -> f.fault() != ArchiveCheck.Fault.UNNOTED && f.path().startsWith("photos/"))
        .toList();
  }

  private int run(List<String> command, String name) throws Exception {
    Process p =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve(name + ".txt").toFile())
            .start();
    assertTrue(p.waitFor(300, TimeUnit.SECONDS), "no end");
    return p.exitValue();
  }

  private String said(String name) throws Exception {
    return Files.readString(folder.resolve(name + ".txt"));
  }
}
