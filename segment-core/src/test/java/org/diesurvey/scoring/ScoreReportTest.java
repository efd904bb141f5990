package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.SharedData;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.api.Test;

class ScoreReportTest {
  private static final ScoreSummary TWO_DIES =
      new ScoreSummary(List.of(die("alpha", 20, 18), die("beta", 20, 14)));

  @Test
  void means_goOverDies() {
    assertEquals(
        (TWO_DIES.cards().get(0).meanIou().orElseThrow()
                + TWO_DIES.cards().get(1).meanIou().orElseThrow())
            / 2,
        TWO_DIES.meanIou().orElseThrow(),
        1e-12);
    assertEquals(14.0 / 20, TWO_DIES.worstIou().orElseThrow(), 1e-12);
    assertTrue(TWO_DIES.meanIou(DieClass.LOGIC).isEmpty());
    assertEquals(2, TWO_DIES.regionsByArea().orElseThrow().totalWeight(), 1e-12);
  }

  @Test
  void json_isTheSameEveryTimeAndReadsBack() throws Exception {
    String text = ScoreJson.text(TWO_DIES);
    assertEquals(text, ScoreJson.text(TWO_DIES));
    JsonNode root = new ObjectMapper().readTree(text);
    assertEquals(ScoreJson.FORMAT, root.get("format").asText());
    assertEquals(0.8, root.at("/summary/meanIou").asDouble(), 1e-9);
    assertEquals(0.9, root.at("/dies/0/classes/memory array/iou").asDouble(), 1e-9);
    assertEquals(360, root.at("/dies/0/confusion/memory array/memory array/px").asLong());
    assertEquals(9e-5, root.at("/dies/0/confusion/memory array/memory array/mm2").asDouble(), 1e-9);
    assertTrue(root.at("/dies/0/classes/logic/iou").isNull());
    assertTrue(root.at("/dies/0/bondPads").isNull());
    assertFalse(text.contains("NaN") || text.contains("Infinity"));
  }

  @Test
  void text_isAlignedAndNamesEveryDie() {
    String text = ScoreText.of(TWO_DIES);
    List<String> lines = text.lines().toList();
    String head = lines.get(1);
    String alpha = lines.stream().filter(l -> l.startsWith("alpha")).findFirst().orElseThrow();
    assertEquals(head.indexOf("mean") + 4, alpha.indexOf("0.900") + 5);
    assertTrue(text.contains("mean of dies"));
    assertTrue(text.contains("expected calibration error"));
    assertTrue(lines.stream().noneMatch(l -> l.endsWith(" ")));
    assertFalse(text.contains("NaN"));
    assertTrue(ScoreText.confusion(TWO_DIES.cards().get(0)).contains("percent of the scored area"));
  }

  @Test
  void noDies_giveATextWithoutFigures() {
    String text = ScoreText.of(new ScoreSummary(List.of()));
    assertTrue(text.contains("mean of dies"));
    assertFalse(text.contains("NaN"));
  }

  /** Whole-size check: a die scored against itself with the memory periphery claimed as memory. */
  @Test
  void openDie_scoredAgainstItself_isFull() {
    Path json = SharedData.require("open-dies/o1_sky.json");
    Truth truth = TruthFile.read(json);
    ScoreCard card = DieScorer.score(Prediction.ofLabels(truth.labels()), truth);
    assertEquals(1, card.meanIou().orElseThrow(), 1e-12);
    assertEquals(0, card.of(DieClass.LOGIC).edges().percentile95().orElseThrow(), 1e-12);
    // The outlines are the blocks' own edges, and the pads' label follows them within a pixel.
    assertTrue(card.of(DieClass.PAD_RING).edges().median().orElseThrow() <= 1);
  }

  /** A memory block of 20 x 20 px, found only up to {@code foundPx} columns. */
  private static ScoreCard die(String name, int truePx, int foundPx) {
    LabelRaster truth = Maps.rectangle(40, 40, 1, 10, 10, truePx, truePx);
    LabelRaster found = Maps.rectangle(40, 40, 1, 10, 10, foundPx, truePx);
    Prediction prediction =
        new Prediction(
            found,
            List.of(
                new Prediction.PredictedRegion(
                    DieClass.MEMORY_ARRAY, 0.8, Maps.box(10, 10, foundPx, truePx))),
            Optional.empty(),
            OptionalInt.empty());
    return DieScorer.score(prediction, Truth.ofLabels(name, truth, OptionalDouble.of(0.5)));
  }
}
