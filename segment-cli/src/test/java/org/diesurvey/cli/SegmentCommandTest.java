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
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SegmentCommandTest {
  @TempDir Path temp;

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.sorted().toList();
    }
  }

  @Test
  void oneBadPhotograph_doesNotStopTheOther() throws IOException {
    Path out = temp.resolve("surveys");
    Path bad = BadPhotos.make("text", temp);
    Call call =
        Call.of(
            "segment",
            bad,
            SmallModel.photo(),
            "--um-per-px",
            "1+-0.01",
            "--node",
            "130",
            "--out",
            out,
            "--model",
            SmallModel.model());
    assertEquals(1, call.code(), call.err());
    assertTrue(call.err().contains("text.png"), call.err());
    assertTrue(call.err().contains("1 of 2 surveyed"), call.err());
    assertTrue(call.out().contains("report.html"), call.out());
    assertTrue(call.out().contains("1.000 \u00b1 0.010 \u00b5m/px, stated"), call.out());
    assertTrue(call.out().contains("share of die"), call.out());
    assertEquals(List.of(out.resolve("die-3")), files(out));
    var survey = SurveyJson.read(out.resolve("die-3").resolve("survey.json"));
    assertEquals(130, survey.method().nodeNm().orElseThrow());
    assertTrue(survey.die().areaMm2().isPresent());
  }

  @Test
  void quietCall_saysNothing() {
    Call call =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--um-per-px",
            "1+-0.01",
            "--out",
            temp,
            "--quiet",
            "--model",
            SmallModel.model());
    assertEquals(0, call.code(), call.err());
    assertEquals("", call.out());
    assertEquals("", call.err());
  }

  @Test
  void jsonLines_areOneAsciiObjectAPhotograph() throws IOException {
    Path bad = temp.resolve("die\u00e9.png");
    Call call =
        Call.of(
            "segment",
            SmallModel.photo(),
            bad,
            "--um-per-px",
            "1+-0.01",
            "--out",
            temp.resolve("o"),
            "--json",
            "--model",
            SmallModel.model());
    assertEquals(1, call.code(), call.err());
    String[] lines = call.out().split("\n");
    assertEquals(2, lines.length, call.out());
    assertTrue(call.out().chars().allMatch(c -> c < 128));
    JsonNode good = new ObjectMapper().readTree(lines[0]);
    assertEquals("surveyed", good.get("status").asText());
    assertEquals(1.0, good.get("scale").get("um_per_px").asDouble());
    double shares = 0;
    for (JsonNode t : good.get("totals")) {
      shares += t.get("share_of_die").asDouble();
    }
    assertTrue(shares > 0.5 && shares < 1.02, "shares sum to " + shares);
    JsonNode rejected = new ObjectMapper().readTree(lines[1]);
    assertEquals("FILE_MISSING", rejected.get("reason").asText());
    assertEquals(bad.toString(), rejected.get("photo").asText());
  }

  @Test
  void withoutScale_sharesAreGivenAndAreasRefused() {
    Call call =
        Call.of("segment", SmallModel.photo(), "--out", temp, "--model", SmallModel.model());
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("no scale"), call.out());
    assertFalse(call.out().contains("mm\u00b2"), call.out());
  }

  @Test
  void dieSize_givesTheScaleOfTheDrawing() throws IOException {
    Path truth = SmallModel.photo().resolveSibling("die-3.json");
    JsonNode size = new ObjectMapper().readTree(truth.toFile()).get("die_um");
    String text = size.get(0).asDouble() / 1000 + "x" + size.get(1).asDouble() / 1000;
    Call call =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--die-size",
            text,
            "--out",
            temp,
            "--model",
            SmallModel.model());
    assertEquals(0, call.code(), call.err());
    var scale = SurveyJson.read(temp.resolve("die-3/survey.json")).scale().calibration();
    assertEquals(1.0, scale.orElseThrow().umPerPx().value(), 0.01);
  }

  @Test
  void fixedDate_givesTheSameBytesWithAnyNumberOfThreads() throws IOException {
    Map<String, String> date = Map.of("SOURCE_DATE_EPOCH", "1000000000");
    for (int threads : new int[] {1, 3}) {
      Call call =
          Call.with(
              date,
              false,
              "segment",
              SmallModel.photo(),
              "--um-per-px",
              "1+-0.01",
              "--threads",
              threads,
              "--out",
              temp.resolve("t" + threads),
              "--model",
              SmallModel.model());
      assertEquals(0, call.code(), call.err());
    }
    List<Path> written = files(temp.resolve("t1/die-3"));
    assertEquals(9, written.size());
    for (Path one : written) {
      Path other = temp.resolve("t3/die-3").resolve(one.getFileName().toString());
      assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(other), one.toString());
    }
    // 10^9 s after 1970 is 2001-09-09T01:46:40Z, by the definition of Unix time.
    String text = Files.readString(temp.resolve("t1/die-3/survey.json"));
    assertTrue(text.contains("2001-09-09T01:46:40Z"));
  }

  @Test
  void badFixedDate_isAWrongCall() {
    Call call =
        Call.with(
            Map.of("SOURCE_DATE_EPOCH", "yesterday"),
            false,
            "segment",
            SmallModel.photo(),
            "--out",
            temp.resolve("o"),
            "--model",
            SmallModel.model());
    assertEquals(2, call.code());
    assertTrue(call.err().contains("SOURCE_DATE_EPOCH"), call.err());
  }

  @Test
  void watchedRun_drawsABar_andColoursOnlyWhereAllowed() {
    Object[] args = {
      "segment",
      SmallModel.photo(),
      "--um-per-px",
      "1",
      "--out",
      temp,
      "--model",
      SmallModel.model()
    };
    Call coloured = Call.with(Map.of(), true, args);
    assertTrue(coloured.out().contains("\u001b["), coloured.out());
    assertTrue(coloured.err().contains("\r["), coloured.err());
    Call plain = Call.with(Map.of("NO_COLOR", "1"), true, args);
    assertFalse(plain.out().contains("\u001b["), plain.out());
    assertFalse(plain.err().contains("\u001b["), plain.err());
  }
}
