package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.diesurvey.archive.query.ArchiveTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BatchCommandTest {
  @TempDir Path temp;

  private static Call batch(Object input, Path archive, Object... more) {
    Object[] words = new Object[6 + more.length];
    System.arraycopy(
        new Object[] {"batch", input, "--archive", archive, "--model", SmallModel.model()},
        0,
        words,
        0,
        6);
    System.arraycopy(more, 0, words, 6, more.length);
    return Call.of(words);
  }

  /** One good photograph, and one of each kind of damage. */
  private Path tray() throws IOException {
    Path tray = Files.createDirectories(temp.resolve("tray/sub"));
    byte[] whole = Files.readAllBytes(SmallModel.photo());
    Files.write(tray.resolve("die.png"), whole);
    for (int turn = 0; turn < 5; turn++) {
      Files.write(tray.resolve("bad-" + turn + ".png"), BatchBenchmark.corrupted(whole, turn));
    }
    return tray.getParent();
  }

  @Test
  void archiveInAStore_needsACluster_butAUriOfAFolderDoesNot() throws IOException {
    Call store = Call.of("batch", tray(), "--archive", "s3a://lab/archive");
    assertEquals(2, store.code());
    assertTrue(store.err().contains("--engine spark can write"), store.err());
    Path archive = temp.resolve("by uri");
    Call folder =
        Call.of(
            "batch",
            tray().resolve("sub/bad-0.png"),
            "--no-isolate",
            "--archive",
            archive.toUri().toString());
    assertEquals(1, folder.code(), folder.err());
    assertTrue(Files.exists(archive.resolve("index.html")), folder.out());
  }

  @Test
  void corruptPhotographs_areNamedWithReasons_andTheOthersDone() throws IOException {
    Path archive = temp.resolve("archive");
    Call first = batch(tray(), archive, "--um-per-px", "1", "--isolate");
    assertEquals(1, first.code(), first.err());
    assertTrue(first.out().contains("1 surveyed, 0 unchanged, 5 rejected, 0 failed"), first.out());
    ArchiveTable lost =
        ArchiveTable.read(
            archive, "SELECT path, reason, sentence FROM not_surveyed ORDER BY path", List.of());
    assertEquals(5, lost.rows().size());
    for (int i = 0; i < 5; i++) {
      String path = "../tray/sub/bad-" + i + ".png";
      assertEquals(path, lost.text(i, "path"));
      assertTrue(lost.text(i, "sentence").startsWith(path), lost.text(i, "sentence"));
      assertTrue(first.err().contains("bad-" + i + ".png"), first.err());
    }
    assertEquals("FORMAT_UNKNOWN", lost.text(2, "reason"));
    assertEquals("FILE_EMPTY", lost.text(3, "reason"));
    assertEquals("PHOTO_TOO_LARGE", lost.text(4, "reason"));

    Call again = batch(temp.resolve("tray"), archive, "--um-per-px", "1", "--isolate");
    assertEquals(1, again.code());
    assertTrue(again.out().contains("0 surveyed, 1 unchanged, 5 rejected"), again.out());

    Files.delete(temp.resolve("tray/sub/bad-0.png"));
    Call good =
        batch(temp.resolve("tray"), archive, "--um-per-px", "1", "--pattern", "d*.png", "--quiet");
    assertEquals(0, good.code(), good.err());
    assertEquals("", good.out());
    assertEquals(0, Call.of("archive", "check", archive).code());
    assertNothingPrivate(archive);
  }

  /** The folder above both, here the one for temporary files, is nobody's business. */
  private void assertNothingPrivate(Path archive) throws IOException {
    for (String name : new String[] {"index.html", "summary.html", "tables/not-surveyed.csv"}) {
      String text = Files.readString(archive.resolve(name));
      assertFalse(text.contains(temp.toString()), name);
    }
    assertFalse(
        new String(
                Files.readAllBytes(archive.resolve("archive.sqlite")),
                java.nio.charset.StandardCharsets.ISO_8859_1)
            .contains(temp.toString()),
        "archive.sqlite");
  }

  @Test
  void badManifest_namesEveryBadLine_andNothingIsDone() throws IOException {
    Path manifest = temp.resolve("lot.csv");
    Files.writeString(
        manifest, "photo,um_per_px,node_nm\na.png,0.5,130\nb.png,half,130\n,0.5,\nc.png,0.5,1\n");
    Call call = batch(manifest, temp.resolve("archive"));
    assertEquals(2, call.code());
    for (String line : new String[] {"line 3: ", "line 4: ", "line 5: "}) {
      assertTrue(call.err().contains(line), call.err());
    }
    assertFalse(call.err().contains("line 2"), call.err());
    assertFalse(Files.exists(temp.resolve("archive")));
  }

  @Test
  void wrongCalls_areRefusedWithASentence() throws IOException {
    Path empty = Files.createDirectories(temp.resolve("empty"));
    Path archive = temp.resolve("archive");
    assertEquals(2, batch(empty, archive).code());
    assertEquals(2, batch(empty, archive, "--time-limit", "-1").code());
    assertEquals(2, Call.of("archive", "check", empty).code());
    assertEquals(2, Call.of("archive", "find", empty, "memory share >").code());
    Call stored = batch("s3a://lab/tray/", archive);
    assertEquals(2, stored.code());
    assertTrue(stored.err().contains("only --engine spark"), stored.err());
    Call other = batch(SmallModel.photo(), temp, "--um-per-px", "1");
    assertEquals(2, other.code(), "a folder of something else");
    assertFalse(Files.exists(archive));
  }

  @Test
  void sparkThatIsNotThere_isExplained() throws IOException {
    Path photo = SmallModel.photo();
    Path archive = temp.resolve("archive");
    Object[] words = {"batch", photo, "--archive", archive, "--engine", "spark"};
    for (Map<String, String> environment :
        List.of(Map.<String, String>of(), Map.of("SPARK_HOME", temp.toString()))) {
      Call call = Call.with(environment, false, words);
      assertEquals(2, call.code(), call.err());
      assertTrue(call.err().contains("SPARK_HOME"), call.err());
      assertTrue(call.err().contains("spark-submit"), call.err());
    }
    assertFalse(Files.exists(archive));
  }

  @Test
  void help_saysWhatAManifestAndTheExitCodesAre() {
    String help = Call.of("help", "batch").out();
    for (String word : List.of("um_per_px", "--engine", "isolate", "Exit codes:", "SPARK_HOME")) {
      assertTrue(help.contains(word), word);
    }
    for (String command : List.of("find", "check", "export")) {
      assertEquals(0, Call.of("archive", command, "--help").code());
    }
  }

  @Test
  void faultOfTheProgram_isShownWithDebug() throws IOException {
    Path bad = temp.resolve("bad.png");
    Files.writeString(bad, "a letter");
    Call call = batch(bad, temp.resolve("archive"), "--um-per-px", "1", "--debug");
    assertEquals(1, call.code());
    assertTrue(call.err().contains("\tat org.diesurvey."), call.err());
  }
}
