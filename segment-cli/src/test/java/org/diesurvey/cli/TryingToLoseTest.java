package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Calls that would replace a file of somebody: each says so and touches nothing. */
class TryingToLoseTest {
  @TempDir Path temp;
  private Path photo;
  private Path outlines;

  @BeforeEach
  void lab() throws IOException {
    photo = Files.copy(SmallModel.photo(), temp.resolve("die.png"));
    outlines =
        Files.writeString(
            temp.resolve("o.geojson"),
            TeachCommandTest.trueOutlines(
                "\"photo\":{\"file_name\":\"die.png\",\"um_per_px\":1},"));
  }

  private void refused(String expected, Object... words) throws IOException {
    Map<String, String> before = NothingLostTest.tree(temp);
    Call call = Call.of(words);
    String what = List.of(words) + ": " + call.err();
    assertEquals(before, NothingLostTest.tree(temp), what);
    assertEquals(2, call.code(), what);
    assertTrue(call.err().contains(expected), what);
    assertEquals(1, call.errLines().length, what);
  }

  private Call measure(Path drawn, Path out) {
    return Call.of("measure", photo, "--outlines", drawn, "--um-per-px", "1", "--out", out);
  }

  private Path measured() {
    Path out = temp.resolve("surveys");
    Call call = measure(outlines, out);
    assertEquals(0, call.code(), call.err());
    return out;
  }

  private Object[] measuring(Object drawn, Path out) {
    return new Object[] {
      "measure", photo, "--outlines", drawn, "--um-per-px", "1", "--out", out, "--quiet"
    };
  }

  @Test
  void resultsOverWhatIsRead() throws IOException {
    Path surveys = measured();
    Path die = surveys.resolve("die");
    Path document = die.resolve("survey.json");
    refused("is read by", measuring(die.resolve("regions.geojson"), surveys));
    refused("is read by", measuring(document, surveys));
    Path other = Files.createLink(temp.resolve("other name.json"), document);
    refused("is read by", measuring(other, surveys));
    for (String name : List.of("survey.json", "overlay.png")) {
      Path out = die.resolve(name);
      refused("is read by", "export", die, "--as", "csv", "--out", out, "--overwrite");
    }
    refused(
        "is read by",
        "export",
        die,
        "--as",
        "svg",
        "--photo",
        photo,
        "--out",
        Files.createLink(temp.resolve("o.svg"), photo),
        "--overwrite");
    Path model = Files.copy(SmallModel.model(), temp.resolve("lab.json.gz"));
    refused("is read by", teaching(model, model));
    refused("is read by", teaching(SmallModel.model(), outlines));
  }

  private Object[] teaching(Path base, Path model) {
    return new Object[] {
      "teach",
      "--outlines",
      outlines,
      "--megapixels",
      "0.2",
      "--base",
      base,
      "--model",
      model,
      "--quiet"
    };
  }

  @Test
  void resultsOverWhatSomebodyWroteOrChanged() throws IOException {
    Path surveys = measured();
    Path die = surveys.resolve("die");
    refused("not written by", "export", die, "--as", "csv", "--out", photo, "--overwrite");
    Path csv = temp.resolve("die.csv");
    assertEquals(0, Call.of("export", die, "--as", "csv", "--out", csv).code());
    refused("that exists", "export", die, "--as", "csv", "--out", csv);
    Files.writeString(csv, Files.readString(csv) + "my remark\n");
    refused("changed since", "export", die, "--as", "csv", "--out", csv, "--overwrite");
    Files.writeString(temp.resolve("n.csv.sha256"), "mine");
    refused("not written by", "export", die, "--as", "csv", "--out", temp.resolve("n.csv"));

    Object[] again = measuring(outlines, surveys);
    Path table = die.resolve("regions.csv");
    byte[] was = Files.readAllBytes(table);
    Files.writeString(table, "my figures");
    refused("regions.csv", again);
    Files.write(table, was);
    Files.move(die.resolve("checksums.sha256"), temp.resolve("list"));
    refused("has no list of checksums", again);
    Files.move(temp.resolve("list"), die.resolve("checksums.sha256"));
    Files.writeString(die.resolve("report.pdf"), "my printout");
    assertEquals(0, Call.of(again).code(), "what is beside the survey is kept");
    assertEquals("my printout", Files.readString(die.resolve("report.pdf")));
  }

  @Test
  void filesUnderNamesOfOurs() throws IOException {
    for (String name : List.of("die-7.png", "die-7_labels.png", "die-7.json")) {
      Path folder = Files.createDirectory(temp.resolve("for " + name));
      Files.writeString(folder.resolve(name), "mine");
      refused(name, "draw", "--seed", "7", "--megapixels", "0.2", "--out", folder);
    }
    for (String name : List.of("inspection.json", "inspection.png")) {
      Path folder = Files.createDirectory(temp.resolve("for " + name));
      Files.writeString(folder.resolve(name), "mine");
      refused(name, "inspect", photo, "--um-per-px", "1", "--out", folder);
    }
    for (String name : List.of("n.json", "n.json.sha256")) {
      Path folder = Files.createDirectory(temp.resolve("for " + name));
      Files.writeString(folder.resolve(name), "mine");
      refused(name, nominal(folder.resolve("n.json")));
    }
    Path demo = Files.createDirectory(temp.resolve("demo"));
    Files.writeString(demo.resolve("demo-die.jpg"), "mine");
    refused("demo-die.jpg", "demo", "--out", demo);
    refused("not written by", "train", "--dies", "40", "--out", photo);
  }

  private static Object[] nominal(Path out) {
    return new Object[] {
      "calibrate", "--camera-pixel", "10um", "--magnification", "10", "--out", out
    };
  }

  @Test
  void symbolicLinks() throws IOException {
    Path mine = Files.createDirectory(temp.resolve("mine"));
    Path surveys = Files.createDirectory(temp.resolve("linked"));
    Files.createSymbolicLink(surveys.resolve("die"), mine);
    refused("symbolic link", measuring(outlines, surveys));
    Files.delete(surveys.resolve("die"));
    Path real = measured();
    Files.createSymbolicLink(surveys.resolve("die"), real.resolve("die"));
    refused("symbolic link", measuring(outlines, surveys));
    Path scale = Files.createSymbolicLink(temp.resolve("s.json"), photo);
    refused("symbolic link", nominal(scale));
    Path nowhere = Files.createSymbolicLink(temp.resolve("n.json"), temp.resolve("nowhere"));
    refused("symbolic link", nominal(nowhere));
    Path csv = Files.createSymbolicLink(temp.resolve("t.csv"), outlines);
    Path die = real.resolve("die");
    refused("", "export", die, "--as", "csv", "--out", csv, "--overwrite");
    // A link that somebody laid into a survey goes with it and leads where it led.
    Files.createSymbolicLink(die.resolve("photograph"), photo);
    Files.createSymbolicLink(die.resolve("folder"), mine);
    assertEquals(0, Call.of(measuring(outlines, real)).code());
    assertEquals(photo, Files.readSymbolicLink(die.resolve("photograph")));
    assertEquals(mine, Files.readSymbolicLink(die.resolve("folder")));
  }

  @Test
  void archives() throws IOException {
    Path archive = temp.resolve("archive");
    Path model = SmallModel.model();
    Object[] batch = {
      "batch",
      photo,
      "--um-per-px",
      "1",
      "--no-isolate",
      "--archive",
      archive,
      "--model",
      model,
      "--quiet"
    };
    assertEquals(0, Call.of(batch).code());
    List<Path> inside = new ArrayList<>();
    try (Stream<Path> all = Files.list(archive)) {
      all.sorted().forEach(inside::add);
    }
    for (Path p : inside) {
      Path away = temp.resolve("away");
      Files.move(p, away);
      Files.createSymbolicLink(p, away);
      boolean database = p.getFileName().toString().equals("archive.sqlite");
      refused(database || Files.isDirectory(away) ? "symbolic link" : "", batch);
      Files.delete(p);
      Files.move(away, p);
    }
    Path page = archive.resolve("index.html");
    byte[] was = Files.readAllBytes(page);
    Files.writeString(page, "my page");
    refused("index.html", batch);
    Files.write(page, was);
    Path marker = archive.resolve("diesurvey-archive.txt");
    Files.move(marker, temp.resolve("marker"));
    refused("diesurvey-archive.txt", batch);
    Files.write(marker, "another text".getBytes(StandardCharsets.UTF_8));
    refused("diesurvey-archive.txt", batch);
    Files.delete(marker);
    refused("write the line \"Archive of die surveys, layout 1\"", batch);
    Files.writeString(marker, "Archive of die surveys, layout 1");
    assertEquals(0, Call.of(batch).code());
    Files.delete(marker);
    Files.move(temp.resolve("marker"), marker);
    assertEquals(0, Call.of(batch).code());
    assertEquals(0, Call.of("archive", "check", archive).code());
    Path survey;
    try (Stream<Path> all = Files.list(archive.resolve("photos"))) {
      survey = all.findFirst().orElseThrow();
    }
    // What was changed in a survey that has to be made again stays, and the call says so.
    Files.delete(survey.resolve("survey.json"));
    Files.writeString(survey.resolve("regions.geojson"), "my outlines");
    Map<String, String> before = NothingLostTest.tree(survey);
    Call call = Call.of(batch);
    assertEquals(2, call.code(), call.err());
    assertTrue(call.err().contains("regions.geojson"), call.err());
    assertEquals(before, NothingLostTest.tree(survey));
  }
}
