package org.diesurvey.interchange.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.gds.GdsWriter;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Outlines that would cost much, or that a writer cannot carry, end in one sentence. */
class CostlyOutlinesTest {
  private static final Instant MOMENT = Instant.parse("2026-01-31T12:34:56Z");

  /** 1,001 corners took 78 s, 2,001 all memory: each side crosses nearly all others. */
  @ParameterizedTest(name = "{0} corners")
  @ValueSource(ints = {1001, 10_001, 100_001})
  @Tag("slow")
  void starThatCrossesItself_isRefusedSoon(int corners) {
    StringBuilder ring = new StringBuilder();
    for (int i = 0; i <= corners; i++) {
      double angle = 2 * Math.PI * (i % corners) * (corners / 2) / corners;
      ring.append(i == 0 ? "" : ",")
          .append(
              String.format(
                  Locale.ROOT,
                  "[%.6f,%.6f]",
                  500 + 400 * Math.cos(angle),
                  500 + 400 * Math.sin(angle)));
    }
    String geo =
        "{\"type\":\"FeatureCollection\",\"coordinate_frame\":{\"unit\":\"um\",\"y_axis\":\"up\"},"
            + "\"features\":[{\"type\":\"Feature\",\"id\":\"S1\",\"properties\":{\"class\":"
            + "\"logic\"},\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[["
            + ring
            + "]]}}]}";
    String points = ring.toString().replace("],[", " ").replace("[", "").replace("]", "");
    String svg =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1000\" height=\"1000\">"
            + "<g data-class=\"logic\"><polygon id=\"S1\" points=\""
            + points
            + "\"/></g></svg>";
    for (String text : List.of(geo, svg)) {
      assertTimeoutPreemptively(
          Duration.ofSeconds(30),
          () -> {
            String said = refusal(text);
            assertTrue(said.contains("S1") && said.contains("itself"), said);
          });
    }
  }

  @Test
  void foldOfRounding_isStillMended() {
    // The last corner lies a rounding beyond the first side.
    Outline folded =
        new Outline(
            List.of(
                new Point(0, 0),
                new Point(100, 0),
                new Point(100, 100),
                new Point(50, 100),
                new Point(50.001, 99.999),
                new Point(49.999, 99.999),
                new Point(50, 100.0001),
                new Point(0, 100)),
            List.of());
    OutlineSet set = OutlineChecks.checked(of(folded), "test");
    assertEquals(10_000, TestOutlines.area(set, "H1"), 0.1);
  }

  @Test
  void idThatFillsPages_isRefused() {
    OutlineSet set =
        new OutlineSet(
            OutlineFrame.DIE_UM,
            Optional.empty(),
            PhotoLink.UNKNOWN,
            List.of(
                ClassedOutline.region(
                    "M".repeat(9000), DieClass.MEMORY_ARRAY, TestOutlines.box(0, 0, 9, 9))));
    String said =
        assertThrows(DieInputException.class, () -> OutlineChecks.checked(set, "test"))
            .getMessage();
    assertTrue(said.contains("id of 9000") && said.length() < 300, said);
  }

  @Test
  void gdsiiOfOutlinesBeyondItsReach_isRefused() {
    String said = gdsRefusal(TestOutlines.box(0, 0, 2_200_000, 100));
    assertTrue(said.contains("'H1'") && said.contains("2.147 m"), said);
  }

  @Test
  void gdsiiOfOutlinesThatCrossThemselves_isRefused_touchingOnesAreCut() throws IOException {
    Outline bow =
        new Outline(
            List.of(new Point(0, 0), new Point(90, 90), new Point(90, 0), new Point(0, 90)),
            List.of());
    String said = gdsRefusal(bow);
    assertTrue(said.contains("'H1' crosses itself"), said);
    Outline touching =
        new Outline(
            List.of(
                new Point(0, 0),
                new Point(50, 50),
                new Point(0, 100),
                new Point(100, 100),
                new Point(50, 50),
                new Point(100, 0)),
            List.of());
    OutlineSet back = OutlineFiles.parse(GdsWriter.bytes(of(touching), MOMENT), "o.gds");
    assertEquals(
        5000,
        back.outlines().stream().mapToDouble(o -> OutlineShapes.polygon(o.shape()).getArea()).sum(),
        0.01);
  }

  @Test
  void surveyWithoutAnOutlineInUm_isRefusedWithItsRegion() throws IOException {
    byte[] whole = SurveyJson.write(SmallSurvey.of(true), Optional.of(MOMENT));
    ObjectMapper json = new ObjectMapper();
    ObjectNode root = (ObjectNode) json.readTree(whole);
    ((ObjectNode) root.get("regions").get(1)).remove("outline_um");
    Survey survey = SurveyJson.parse(json.writeValueAsBytes(root), "survey.json").survey();
    String said =
        assertThrows(DieInputException.class, () -> SurveyOutlines.of(survey)).getMessage();
    assertTrue(said.contains("small.png") && said.contains("no corners in um"), said);
  }

  private static String refusal(String text) {
    return assertThrows(
            DieInputException.class,
            () -> OutlineFiles.parse(text.getBytes(StandardCharsets.UTF_8), "o"))
        .getMessage();
  }

  private static String gdsRefusal(Outline shape) {
    return assertThrows(DieInputException.class, () -> GdsWriter.bytes(of(shape), MOMENT))
        .getMessage();
  }

  private static OutlineSet of(Outline shape) {
    return new OutlineSet(
        OutlineFrame.DIE_UM,
        Optional.empty(),
        PhotoLink.UNKNOWN,
        List.of(ClassedOutline.region("H1", DieClass.HARD_MACRO, shape)));
  }
}
