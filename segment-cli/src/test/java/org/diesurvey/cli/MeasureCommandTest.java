package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MeasureCommandTest {
  private static final String PX =
      "{\"type\":\"FeatureCollection\",\"coordinate_frame\":{\"unit\":\"px\",\"y_axis\":\"down\"},"
          + "\"features\":[";

  @TempDir Path temp;

  /** A square feature in px of the photograph. */
  private static String square(String id, String properties, int x, int y, int side) {
    return String.format(
        java.util.Locale.ROOT,
        "{\"type\":\"Feature\",\"properties\":{\"id\":\"%s\",%s},\"geometry\":{\"type\":\"Polygon\","
            + "\"coordinates\":[[[%d,%d],[%d,%d],[%d,%d],[%d,%d],[%d,%d]]]}}",
        id,
        properties,
        x,
        y,
        x + side,
        y,
        x + side,
        y + side,
        x,
        y + side,
        x,
        y);
  }

  private Call measure(String text, String... more) throws IOException {
    Path file = Files.writeString(temp.resolve("outlines.geojson"), text);
    Object[] args =
        java.util.stream.Stream.concat(
                java.util.stream.Stream.of(
                    "measure", SmallModel.photo(), "--outlines", file, "--out", temp.resolve("o")),
                java.util.Arrays.stream(more))
            .toArray();
    return Call.of(args);
  }

  @Test
  void outlinesOfASurvey_areMeasuredAsTheSurveyDid() throws IOException {
    Path surveys = temp.resolve("surveys");
    Call segment =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--um-per-px",
            "1+-0.01",
            "--out",
            surveys,
            "--quiet",
            "--model",
            SmallModel.model());
    assertEquals(0, segment.code(), segment.err());
    Call call =
        Call.of(
            "measure",
            SmallModel.photo(),
            "--outlines",
            surveys.resolve("die-3").resolve("regions.geojson"),
            "--um-per-px",
            "1+-0.01",
            "--node",
            "130",
            "--out",
            temp.resolve("o"));
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("stated by a person"), call.out());
    Survey before = SurveyJson.read(surveys.resolve("die-3/survey.json"));
    Survey after = SurveyJson.read(temp.resolve("o/die-3/survey.json"));
    assertEquals(before.regions().size(), after.regions().size());
    for (SurveyRegion b : before.regions()) {
      SurveyRegion a =
          after.regions().stream().filter(r -> r.id().equals(b.id())).findFirst().orElseThrow();
      assertEquals(b.dieClass(), a.dieClass());
      double mm2 = b.areaMm2().orElseThrow().value();
      assertEquals(mm2, a.areaMm2().orElseThrow().value(), 1e-3 * mm2 + 1e-7, b.id());
      assertEquals(b.inPhoto().bitCellArrays().size(), a.inPhoto().bitCellArrays().size());
      assertEquals(1, a.confidence());
    }
    assertTrue(after.estimates().isPresent());
    assertEquals("Diesurvey densities", after.estimates().get().table());
    boolean memory = after.regions().stream().anyMatch(r -> r.dieClass() == DieClass.MEMORY_ARRAY);
    assertEquals(memory, call.out().contains("bits"), call.out());
    assertTrue(Files.exists(temp.resolve("o/die-3/report.html")));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "unknown class | \"class\":\"cache\" | unknown class",
        "no class | \"kind\":\"region\" | has no class",
        "kind | \"kind\":\"corner\",\"class\":\"logic\" | unknown kind",
        "ports | \"class\":\"memory array\",\"ports\":3 | state 1 or 2",
        "ports of logic | \"class\":\"logic\",\"ports\":1 | is no memory array",
        "memory kind | \"class\":\"memory array\",\"memory_kind\":\"tape\" | unknown memory_kind",
        "lost array | \"kind\":\"bit-cell array\",\"part_of\":\"MEM9\" | no memory array of that id"
      })
  void badProperty_isRefused_andNothingWritten(String name, String properties, String expected)
      throws IOException {
    refused(measure(PX + square("A", properties, 60, 60, 40) + "]}"), expected);
  }

  private void refused(Call call, String expected) {
    assertEquals(2, call.code(), call.err());
    assertEquals("", call.out());
    assertEquals(1, call.errLines().length, call.err());
    assertTrue(call.err().contains(expected), call.err());
    assertFalse(Files.exists(temp.resolve("o")), "something was written");
  }

  @Test
  void badGeometry_isRefused_andNothingWritten() throws IOException {
    String logic = "\"class\":\"logic\"";
    refused(
        measure(PX + square("A", logic, 60, 60, 40) + "," + square("B", logic, 80, 80, 40) + "]}"),
        "overlaps 'A'");
    refused(measure(PX + square("A", logic, -900, 60, 40) + "]}"), "reaches out of the");
    String bow = square("A", logic, 60, 60, 40).replace("[100,60],[100,100]", "[100,100],[100,60]");
    refused(measure(PX + bow + "]}"), "crosses or touches itself");
    refused(
        measure(PX + square("A", logic, 60, 60, 40) + "," + square("A", logic, 120, 60, 9) + "]}"),
        "appears twice");
    refused(measure(PX + "]}"), "no region");
    refused(measure("{\"type\":\"Feature\"}"), "FeatureCollection");
    refused(measure("no json"), "no file with outlines");
    refused(
        measure(
            "{\"type\":\"FeatureCollection\",\"features\":[" + square("A", logic, 0, 0, 9) + "]}"),
        "coordinate_frame");
    refused(
        measure(
            (PX + square("A", logic, 60, 60, 40) + "]}").replace("px", "um").replace("down", "up"),
            "--no-scale"),
        "no scale");
    refused(
        Call.of(
            "measure",
            SmallModel.photo(),
            "--outlines",
            temp.resolve("none"),
            "--out",
            temp.resolve("o")),
        "no file with outlines");
  }

  @Test
  void outlinesOfAnotherPhotograph_areRefused() throws IOException {
    String text = PX + square("A", "\"class\":\"logic\"", 60, 60, 40) + "]}";
    refused(
        measure(
            text.replace(
                "\"features\"", "\"photo\":{\"sha256\":\"" + "0".repeat(64) + "\"},\"features\"")),
        "belong to another photograph");
  }

  /** Surveys let bit-cell arrays run on below dirt, which is unclear ground of its own. */
  @Test
  void arrayMayReachOverUnclearGround_andNowhereElse() throws IOException {
    String memory =
        square("A", "\"class\":\"memory array\"", 60, 60, 40)
            + ","
            + square("A.1", "\"kind\":\"bit-cell array\",\"part_of\":\"A\"", 80, 65, 30);
    String dirt = square("D", "\"class\":\"unclear\",\"reason\":\"damaged\"", 100, 60, 40);
    refused(measure(PX + memory + "]}"), "reaches out of it");
    Call call = measure(PX + memory + "," + dirt + "]}");
    assertEquals(0, call.code(), call.err());
    Survey s = SurveyJson.read(temp.resolve("o/die-3/survey.json"));
    assertEquals(1, s.regions().get(0).inPhoto().bitCellArrays().size());
  }

  @Test
  void surveyItself_andClassesOverUnclearArea_areMeasured() throws IOException {
    String text =
        PX
            + square("U", "\"class\":\"unclear\",\"reason\":\"empty\"", 60, 60, 40)
            + ","
            + square("A", "\"class\":\"logic\"", 60, 60, 20)
            + "]}";
    Call first = measure(text, "--um-per-px", "1");
    assertEquals(0, first.code(), first.err());
    Survey s = SurveyJson.read(temp.resolve("o/die-3/survey.json"));
    assertEquals(2, s.regions().size());
    assertEquals(400e-6, s.regions().get(0).areaMm2().orElseThrow().value(), 5e-6);
    assertEquals(1200e-6, s.regions().get(1).areaMm2().orElseThrow().value(), 15e-6);
    Call again =
        Call.of(
            "measure",
            SmallModel.photo(),
            "--outlines",
            temp.resolve("o/die-3/survey.json"),
            "--um-per-px",
            "1",
            "--out",
            temp.resolve("again"));
    assertEquals(0, again.code(), again.err());
    assertEquals(
        s.regions().get(1).area().px2(),
        SurveyJson.read(temp.resolve("again/die-3/survey.json")).regions().get(1).area().px2(),
        1);
  }

  @Test
  void badNodeOrTable_isRefusedBeforeAnything() throws IOException {
    String good = PX + square("A", "\"class\":\"logic\"", 60, 60, 40) + "]}";
    refused(measure(good, "--node", "600"), "350 to 7 nm");
    Path table = Files.writeString(temp.resolve("t.csv"), "node_nm,quantity\n");
    refused(measure(good, "--densities", table.toString()), "lacks the columns");
  }

  @Test
  void withoutScale_pixelsAreMeasured_andNothingIsEstimated() throws IOException {
    String good = PX + square("A", "\"class\":\"logic\"", 60, 60, 40) + "]}";
    Call call = measure(good, "--no-scale");
    assertEquals(0, call.code(), call.err());
    Survey s = SurveyJson.read(temp.resolve("o/die-3/survey.json"));
    assertEquals(1600, s.regions().get(0).area().px2(), 3);
    assertTrue(s.estimates().isEmpty());
  }
}
