package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.MicrometerDrawing;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Calls that once cost somebody a file. */
class NothingLostTest {
  @TempDir Path temp;

  /** Every file below a folder with its bytes, hidden ones and links too. */
  static Map<String, String> tree(Path folder) throws IOException {
    Map<String, String> all = new TreeMap<>();
    try (Stream<Path> walk = Files.walk(folder)) {
      for (Path p : walk.toList()) {
        String name = folder.relativize(p).toString();
        if (Files.isSymbolicLink(p)) {
          all.put(name, "-> " + Files.readSymbolicLink(p));
        } else if (Files.isRegularFile(p)) {
          all.put(name, java.util.Arrays.hashCode(Files.readAllBytes(p)) + ", " + Files.size(p));
        } else {
          all.put(name, "folder");
        }
      }
    }
    return all;
  }

  private static Call batch(Path input, Path archive, Object... more) {
    List<Object> words = new ArrayList<>(List.of("batch", input, "--um-per-px", "1"));
    words.addAll(List.of("--no-isolate", "--archive", archive, "--model", SmallModel.model()));
    words.addAll(List.of(more));
    return Call.of(words.toArray());
  }

  /** Three drawn dies and nothing else. */
  private Path three(String name) throws IOException {
    Path drawn = temp.resolve("drawn");
    Path tray = Files.createDirectories(temp.resolve(name));
    assertEquals(
        0, Call.of("draw", "--seed", 3, "--count", 3, "--megapixels", 0.2, "--out", drawn).code());
    for (int i = 3; i < 6; i++) {
      Files.copy(drawn.resolve("die-" + i + ".png"), tray.resolve("die-" + i + ".png"));
    }
    return tray;
  }

  private static List<String> folders(Path archive) throws IOException {
    try (Stream<Path> all = Files.list(archive.resolve("photos"))) {
      return all.map(p -> p.getFileName().toString())
          .filter(n -> n.startsWith("die-"))
          .sorted()
          .toList();
    }
  }

  private static int surveys(Path archive) {
    return ArchiveTable.read(archive, "SELECT * FROM surveyed_photo", List.of()).rows().size();
  }

  @Test
  void batch_withTheFolderAboveThePhotographsAsArchive_isRefused() throws IOException {
    Path photos = Files.createDirectories(temp.resolve("lot7/photos"));
    Files.copy(SmallModel.photo(), photos.resolve("die.png"));
    Files.writeString(photos.resolve("letter.txt"), "mine");
    Files.writeString(Files.createDirectory(photos.resolve("sub")).resolve("a"), "b");
    Map<String, String> before = tree(temp);
    Call call = batch(photos, temp.resolve("lot7"));
    assertEquals(before, tree(temp));
    assertEquals(2, call.code(), call.err());
    assertEquals(1, call.errLines().length, call.err());
  }

  @Test
  void batch_withAnArchiveWhosePhotosAreALink_isRefused() throws IOException {
    Path elsewhere = Files.createDirectories(temp.resolve("elsewhere"));
    Files.copy(SmallModel.photo(), elsewhere.resolve("die.png"));
    Path lot = Files.createDirectories(temp.resolve("lot8"));
    Files.createSymbolicLink(lot.resolve("photos"), elsewhere);
    Map<String, String> before = tree(temp);
    assertEquals(2, batch(elsewhere, lot).code());
    assertEquals(before, tree(temp));
    Files.delete(lot.resolve("photos"));
    assertEquals(0, batch(elsewhere, lot).code());
    Files.move(lot.resolve("photos"), temp.resolve("moved"));
    Files.createSymbolicLink(lot.resolve("photos"), temp.resolve("moved"));
    before = tree(temp);
    Call call = batch(elsewhere, lot);
    assertEquals(2, call.code(), call.err());
    assertTrue(call.err().contains("symbolic link"), call.err());
    assertEquals(before, tree(temp));
  }

  @Test
  void archiveWithoutItsDatabase_keepsAllItsSurveys() throws IOException {
    Path tray = three("tray");
    Path archive = temp.resolve("archive");
    assertEquals(0, batch(tray.resolve("die-3.png"), archive).code());
    Path database = archive.resolve("archive.sqlite");
    Path older = Files.copy(database, temp.resolve("older.sqlite"));
    assertEquals(0, batch(tray, archive).code());
    List<String> folders = folders(archive);
    assertEquals(3, folders.size());

    Files.write(database, new byte[0]);
    Call check = Call.of("archive", "check", archive);
    assertEquals(1, check.code(), check.err());
    assertTrue((check.out() + check.err()).contains("rebuil"), check.out() + check.err());
    Call call = batch(tray.resolve("die-3.png"), archive);
    assertEquals(0, call.code(), call.err());
    assertTrue((call.out() + call.err()).contains("rebuilt"), call.out() + call.err());
    assertEquals(folders, folders(archive), "0 bytes");
    assertEquals(3, surveys(archive));
    assertEquals(0, Call.of("archive", "check", archive).code());

    Files.copy(older, database, StandardCopyOption.REPLACE_EXISTING);
    assertEquals(0, batch(tray.resolve("die-3.png"), archive).code());
    assertEquals(folders, folders(archive), "older copy");
    assertEquals(3, surveys(archive));

    Files.delete(database);
    for (String page : List.of("index.html", "summary.html", "summary.pdf", "checksums.sha256")) {
      Files.delete(archive.resolve(page));
    }
    Files.delete(archive.resolve("ro-crate-metadata.json"));
    try (Stream<Path> tables = Files.list(archive.resolve("tables"))) {
      for (Path table : tables.toList()) {
        Files.delete(table);
      }
    }
    assertEquals(0, batch(tray.resolve("die-3.png"), archive).code());
    assertEquals(folders, folders(archive), "no database and no pages");
    assertEquals(3, surveys(archive));

    Files.writeString(database, "a letter that somebody keeps under this name");
    assertEquals(0, batch(tray.resolve("die-3.png"), archive).code());
    assertEquals(3, surveys(archive));
    try (Stream<Path> all = Files.list(archive)) {
      assertTrue(
          all.anyMatch(p -> p.toFile().length() == 44 && Files.isRegularFile(p)),
          "the letter is gone");
    }
  }

  @Test
  void foreignFilesInAnArchive_stay() throws IOException {
    Path archive = temp.resolve("archive");
    assertEquals(0, batch(SmallModel.photo(), archive).code());
    Path survey = archive.resolve("photos").resolve(folders(archive).get(0));
    List<Path> mine =
        List.of(
            archive.resolve("NOTES.txt"),
            archive.resolve("photos/NOTES.txt"),
            archive.resolve("photos/mine/a.txt"),
            survey.resolve("die-3.corrected.geojson"),
            survey.resolve("sub/b.txt"));
    for (Path p : mine) {
      Files.createDirectories(p.getParent());
      Files.writeString(p, "mine");
    }
    assertEquals(0, batch(SmallModel.photo(), archive).code());
    for (Path p : mine) {
      assertEquals("mine", Files.readString(p));
    }
    Files.delete(survey.resolve("survey.json"));
    Call again = batch(SmallModel.photo(), archive);
    assertEquals(0, again.code(), again.err());
    assertTrue(again.out().contains("1 surveyed"), again.out());
    assertTrue(Files.exists(survey.resolve("survey.json")));
    for (Path p : mine) {
      assertEquals("mine", Files.readString(p));
    }
    String said = Call.of("archive", "check", archive).out();
    assertTrue(said.contains("die-3.corrected.geojson"), said);
    assertTrue(said.contains("photos/mine"), said);
  }

  @Test
  void archiveInsideItsInput_isNotSurveyed() throws IOException {
    Path inn = Files.createDirectories(temp.resolve("inn"));
    Files.copy(SmallModel.photo(), inn.resolve("die.png"));
    Object[] segment = {
      "segment",
      inn.resolve("die.png"),
      "--um-per-px",
      "1",
      "--out",
      inn.resolve("out"),
      "--model",
      SmallModel.model()
    };
    assertEquals(0, Call.of(segment).code());
    for (int i = 0; i < 3; i++) {
      Call call = batch(inn, inn.resolve("archive"));
      assertEquals(0, call.code(), call.err());
      assertTrue(call.out().contains("1 photographs"), call.out());
      assertEquals(1, surveys(inn.resolve("archive")));
      String said = call.out() + call.err();
      assertTrue(said.contains("left out"), said);
      assertTrue(said.contains("1 folder of a survey"), said);
      assertEquals(i > 0, said.contains("1 archive"), said);
    }
  }

  @Test
  void calibrate_neverReplacesAPhotograph() throws IOException {
    Path m0 = MicrometerDrawing.draw(700001).write(temp, "m0");
    String division = MicrometerDrawing.draw(700001).truth().divisionUm() + "um";
    byte[] before = Files.readAllBytes(m0);
    Call call = Call.of("calibrate", m0, "--division", division, "--out", m0);
    assertEquals(2, call.code(), call.err());
    assertEquals(1, call.errLines().length, call.err());
    assertTrue(java.util.Arrays.equals(before, Files.readAllBytes(m0)));
    Path mine = Files.writeString(temp.resolve("20x-lines.png"), "mine");
    Path out = temp.resolve("20x.json");
    Call beside = Call.of("calibrate", m0, "--division", division, "--out", out);
    assertEquals("mine", Files.readString(mine));
    assertEquals(2, beside.code(), beside.err());
    assertFalse(Files.exists(out));
    Files.createLink(temp.resolve("other name.json"), m0);
    Call linked =
        Call.of("calibrate", m0, "--division", division, "--out", temp.resolve("other name.json"));
    assertEquals(2, linked.code(), linked.err());
    assertTrue(java.util.Arrays.equals(before, Files.readAllBytes(m0)));
  }

  @Test
  void teach_neverReplacesItsPhotographOrItsOutlines() throws IOException {
    Path photo = Files.copy(SmallModel.photo(), temp.resolve("die.png"));
    Path outlines =
        Files.writeString(
            temp.resolve("o.geojson"),
            TeachCommandTest.trueOutlines(
                "\"photo\":{\"file_name\":\"die.png\",\"um_per_px\":1},"));
    Map<String, String> before = tree(temp);
    for (Path target : List.of(photo, outlines)) {
      Call call =
          Call.of(
              "teach",
              "--outlines",
              outlines,
              "--megapixels",
              "0.2",
              "--base",
              SmallModel.model(),
              "--model",
              target,
              "--quiet");
      assertEquals(before, tree(temp));
      assertEquals(2, call.code(), call.err());
    }
  }

  @Test
  void filesForPeople_haveOrdinaryModes() throws IOException {
    Assumptions.assumeTrue(
        temp.getFileSystem().supportedFileAttributeViews().contains("posix"),
        "this disk knows no modes");
    Path plain = Files.createFile(temp.resolve("plain"));
    String mode = PosixFilePermissions.toString(Files.getPosixFilePermissions(plain));
    Path scale = temp.resolve("nominal.json");
    assertEquals(
        0,
        Call.of("calibrate", "--camera-pixel", "10um", "--magnification", "10", "--out", scale)
            .code());
    assertEquals(mode, PosixFilePermissions.toString(Files.getPosixFilePermissions(scale)));
    Path model = SmallModel.model();
    assertEquals(mode, PosixFilePermissions.toString(Files.getPosixFilePermissions(model)));
  }

  /** The process is ended at its first, second, third renaming to or from the folder, and so on. */
  @Test
  void segment_killedAtAnyRenamingOfTheSurvey_losesNothing() throws Exception {
    Assumptions.assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/strace")),
        "strace, which ends the process, is absent");
    Path photo = Files.copy(SmallModel.photo(), temp.resolve("die.png"));
    Path out = temp.resolve("surveys");
    List<String> words = new ArrayList<>(FreshProcess.thisProgram());
    words.addAll(List.of("segment", photo.toString(), "--um-per-px", "1", "--quiet"));
    words.addAll(List.of("--out", out.toString(), "--model", SmallModel.model().toString()));
    assertEquals(0, run(words));
    Path mine = out.resolve("die/die.corrected.geojson");
    Files.writeString(mine, "mine");
    int killed = 0;
    for (int when = 1; when <= 9; when++) {
      String renaming = "rename,renameat,renameat2";
      List<String> ended = new ArrayList<>(List.of("/usr/bin/strace", "-f", "-qq", "-o"));
      ended.addAll(List.of("/dev/null", "-e", "trace=" + renaming, "-e"));
      ended.add("inject=" + renaming + ":signal=KILL:when=" + when);
      for (String name : List.of("die", ".die.diesurvey/new", ".die.diesurvey/old")) {
        ended.addAll(List.of("-P", out.resolve(name).toString()));
      }
      ended.addAll(words);
      if (run(ended) == 0) {
        break;
      }
      killed++;
      Call check = Call.of(words.subList(words.indexOf("segment"), words.size()).toArray());
      assertEquals(0, check.code(), check.err());
      assertTrue(Files.exists(mine), "the corrections are gone after renaming " + when);
      assertEquals("mine", Files.readString(mine));
      SurveyJson.read(out.resolve("die/survey.json"));
      try (Stream<Path> left = Files.list(out)) {
        assertEquals(List.of(out.resolve("die")), left.toList(), "left after renaming " + when);
      }
    }
    assertTrue(killed >= 2 && killed < 9, "killed " + killed + " times");
  }

  private static int run(List<String> command) throws Exception {
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start()
        .waitFor();
  }
}
