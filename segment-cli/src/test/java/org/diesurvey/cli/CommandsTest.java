package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CommandsTest {
  @TempDir Path temp;

  @ParameterizedTest
  @ValueSource(
      strings = {"segment", "inspect", "demo", "draw", "train", "score", "completion", "help"})
  void everyCommand_explainsItself(String command) {
    Call help = Call.of(command, "--help");
    assertEquals(0, help.code(), help.err());
    assertEquals(help.out(), Call.of("help", command).out());
    assertTrue(help.out().startsWith("Usage: diesurvey " + command), help.out());
    assertFalse(help.out().contains("%%"), help.out());
    assertTrue(help.out().lines().allMatch(l -> l.length() <= 80), help.out());
    assertEquals("", help.err());
  }

  @Test
  void helpOfSegment_tellsExitCodesAndScale() {
    String help = Call.of("help", "segment").out();
    for (String expected :
        new String[] {"Exit codes", "stage micrometer", "estimates", "--debug"}) {
      assertTrue(help.contains(expected), expected);
    }
  }

  @Test
  void mainHelp_warnsOfAcids() {
    String help = Call.of("--help").out().replaceAll("\\s+", " ");
    assertTrue(help.contains("hydrofluoric acid") && help.contains("licensed practice"), help);
  }

  @Test
  void version_isThatOfTheBuild() {
    assertTrue(Call.of("--version").out().matches("diesurvey \\d+\\.\\d+\\.\\d+\\S*\\s*"));
  }

  @Test
  void completionScript_isValidForBash() throws IOException, InterruptedException {
    String script = Call.of("completion").out();
    assertTrue(script.contains("complete -F") && script.contains("--um-per-px"));
    assertFalse(script.contains("benchmark"), "a hidden command is offered");
    Path file = Files.writeString(temp.resolve("completion.sh"), script);
    Process bash;
    try {
      bash = new ProcessBuilder("bash", "-n", file.toString()).inheritIO().start();
    } catch (IOException e) {
      Assumptions.abort("no bash here");
      return;
    }
    assertEquals(0, bash.waitFor());
  }

  @Test
  void demo_drawsSurveysAndSaysWhereTheReportIs() {
    Path out = temp.resolve("a demo");
    Call call = Call.of("demo", "--out", out);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("memory array"), call.out());
    assertTrue(call.out().contains(out.resolve("demo-die/report.html").toString()), call.out());
    assertTrue(Files.exists(out.resolve("demo-die/report.html")));
    assertTrue(Files.exists(out.resolve("demo-die.json")), "the truth is missing");
  }

  @Test
  void draw_isRepeatableAndWritesTruth() throws IOException {
    for (String folder : new String[] {"a", "b"}) {
      Call call =
          Call.of(
              "draw",
              "--seed",
              11,
              "--count",
              2,
              "--megapixels",
              0.3,
              "--node",
              130,
              "--out",
              temp.resolve(folder));
      assertEquals(0, call.code(), call.err());
      assertEquals(2, call.out().lines().count());
    }
    try (Stream<Path> files = Files.list(temp.resolve("a"))) {
      for (Path one : files.toList()) {
        Path other = temp.resolve("b").resolve(one.getFileName().toString());
        assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(other), one.toString());
      }
    }
    JsonNode truth = new ObjectMapper().readTree(temp.resolve("a/die-12.json").toFile());
    assertEquals(12, truth.get("seed").asInt());
    assertEquals(130, truth.get("node_nm").asDouble(), 1e-9);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "draw --seed 1 --out o --count 0",
        "draw --seed 1 --out o --severity 9",
        "draw --seed 1 --out o --megapixels NaN",
        "draw --seed 1 --out o --um-per-px 0",
        "draw --seed 1 --out o --node 5",
        "draw --seed one --out o",
        "draw --seed 1 --out o --format bmp",
        "train --dies 3",
        "train --dies 20 --threads 0",
        "score",
        "score nowhere.json",
        "score --drawn -1",
        "help nothing",
      })
  void valueOutOfRange_isAWrongCall(String line) {
    Call call = Call.of((Object[]) line.split(" "));
    assertEquals(2, call.code(), call.err());
    assertTrue(call.err().startsWith("diesurvey: "), call.err());
  }

  @Test
  void training_isTheSameWithOneThreadAndWithThree() throws IOException {
    Path again = temp.resolve("again.json.gz");
    Object[] args =
        Stream.concat(Stream.of(SmallModel.TRAINING), Stream.of("--threads", "3", "--out", again))
            .toArray();
    Call call = Call.of(args);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("left out"), call.out());
    Path single = temp.resolve("single.json.gz");
    args[args.length - 3] = "1";
    args[args.length - 1] = single;
    assertEquals(0, Call.of(args).code());
    assertArrayEquals(Files.readAllBytes(single), Files.readAllBytes(again));
  }

  @Test
  void score_ofSurveysMadeBefore_isThatOfSurveyingAnew() throws IOException {
    Path photo = SmallModel.photo();
    Path truth = photo.resolveSibling("die-3.json");
    Call made =
        Call.of(
            "segment",
            photo,
            "--um-per-px",
            1,
            "--out",
            temp.resolve("s"),
            "--quiet",
            "--model",
            SmallModel.model());
    assertEquals(0, made.code(), made.err());
    Path first = temp.resolve("first.json");
    Path second = temp.resolve("second.json");
    Call kept = Call.of("score", truth, "--surveys", temp.resolve("s"), "--json", first);
    Call anew =
        Call.of("score", photo.getParent(), "--model", SmallModel.model(), "--json", second);
    assertEquals(0, kept.code(), kept.err());
    assertEquals(0, anew.code(), anew.err());
    ObjectMapper mapper = new ObjectMapper();
    JsonNode stored = mapper.readTree(first.toFile()).get("summary");
    JsonNode fresh = mapper.readTree(second.toFile()).get("summary");
    assertEquals(1, stored.get("dies").asInt());
    // Outlines in a stored survey are rounded to 0.01 px.
    assertEquals(fresh.get("meanIou").asDouble(), stored.get("meanIou").asDouble(), 1e-4);
    assertTrue(kept.out().contains("die-3"), kept.out());
  }

  @Test
  void missingSurvey_isToldAndCounted() {
    Path truth = SmallModel.photo().resolveSibling("die-3.json");
    Call call = Call.of("score", truth, "--surveys", temp);
    assertEquals(1, call.code());
    assertTrue(call.err().contains("die-3"), call.err());
  }

  @Test
  void callWithoutACommand_namesThemAll() {
    Call call = Call.of();
    assertEquals(2, call.code());
    for (String command : new String[] {"segment", "measure", "batch", "archive", "compare"}) {
      assertTrue(call.err().contains("\n  " + command + " "), call.err());
    }
    assertTrue(call.err().lines().allMatch(l -> l.length() <= 80), call.err());
  }

  @Test
  void helpOfASubcommand_isThatOfTheSubcommand() {
    Call help = Call.of("help", "archive", "check");
    assertEquals(0, help.code(), help.err());
    assertEquals(Call.of("archive", "check", "--help").out(), help.out());
    Call unknown = Call.of("help", "archive", "burn");
    assertEquals(2, unknown.code());
    assertTrue(unknown.err().contains("archive burn"), unknown.err());
  }
}
