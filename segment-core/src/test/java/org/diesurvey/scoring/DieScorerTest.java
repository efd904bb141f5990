package org.diesurvey.scoring;

import static org.diesurvey.classification.DieClass.LOGIC;
import static org.diesurvey.classification.DieClass.MEMORY_ARRAY;
import static org.diesurvey.classification.DieClass.PAD_RING;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.scoring.Prediction.PredictedRegion;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.junit.jupiter.api.Test;

class DieScorerTest {
  private static final OptionalDouble HALF_UM = OptionalDouble.of(0.5);

  @Test
  void theTruthItself_scoresFull() {
    LabelRaster map = Maps.rectangle(60, 50, 3, 5, 5, 50, 40);
    Maps.paint(map, 1, 20, 15, 20, 20);
    ScoreCard card = DieScorer.score(Prediction.ofLabels(map), Truth.ofLabels("d", map, HALF_UM));
    assertEquals(1, card.meanIou().orElseThrow());
    assertEquals(0, card.edges().median().orElseThrow());
    assertEquals(0, card.edges().percentile95().orElseThrow());
    assertEquals(0, card.unclearShare());
    assertEquals(0, card.of(LOGIC).shareErrorPoints());
    assertTrue(card.pads().isEmpty());
  }

  /** A 20 x 20 px block found 3 px too far right: edges along x are 3 px off, others 0. */
  @Test
  void shiftedBlock_hasTheShiftAsLargestEdgeDistance() {
    LabelRaster truth = Maps.rectangle(60, 50, 1, 20, 15, 20, 20);
    LabelRaster found = Maps.rectangle(60, 50, 1, 23, 15, 20, 20);
    ScoreCard card =
        DieScorer.score(Prediction.ofLabels(found), Truth.ofLabels("d", truth, HALF_UM));
    EdgeError edges = card.of(MEMORY_ARRAY).edges();
    assertEquals(80, edges.points());
    assertEquals("um", edges.unit());
    assertEquals(1.5, edges.percentile95().orElseThrow(), 1e-12);
    assertEquals(17 * 20.0 / (400 + 60), card.of(MEMORY_ARRAY).iou().orElseThrow(), 1e-12);
  }

  /** The nearest edge is sought in both directions: a corner 3 right and 4 down is 5 px off. */
  @Test
  void distance_isEuclidean() {
    EdgeGrid grid = new EdgeGrid(Maps.rectangle(40, 40, 1, 13, 14, 5, 5), 1);
    assertEquals(5, grid.distance(new Point(10, 10)), 1e-12);
    assertEquals(0, grid.distance(new Point(15, 14)), 1e-12);
  }

  /** The fast search agrees with trying every pair, on a map drawn with a fixed seed. */
  @Test
  void distance_agreesWithExhaustiveSearch() {
    Random random = new Random(7);
    LabelRaster map = new LabelRaster(37, 29);
    for (int i = 0; i < 4; i++) {
      Maps.paint(map, 2, random.nextInt(30), random.nextInt(22), 6, 6);
    }
    List<Point> edges = EdgeGrid.points(map, 2);
    EdgeGrid grid = new EdgeGrid(map, 2);
    for (int y = 0; y <= 29; y++) {
      for (int x = 0; x <= 37; x++) {
        double best = Double.POSITIVE_INFINITY;
        for (Point e : edges) {
          best = Math.min(best, Math.hypot(e.x() - x, e.y() - y));
        }
        assertEquals(best, grid.distance(new Point(x, y)), 1e-9);
      }
    }
  }

  @Test
  void classFoundNowhere_countsAsInfinitelyFar() {
    LabelRaster truth = Maps.rectangle(30, 30, 1, 10, 10, 10, 10);
    ScoreCard card =
        DieScorer.score(
            Prediction.ofLabels(new LabelRaster(30, 30)), Truth.ofLabels("d", truth, HALF_UM));
    EdgeError edges = card.of(MEMORY_ARRAY).edges();
    assertEquals(edges.points(), edges.unmatched());
    assertTrue(edges.median().isEmpty());
    assertEquals(1, card.lostShare());
  }

  /** The label map leaves a strip around the array; the outline is the macro's own edge. */
  @Test
  void givenOutline_isPreferredToTheLabelMap() {
    LabelRaster labels = Maps.rectangle(60, 60, 255, 20, 20, 20, 20);
    Maps.paint(labels, 1, 25, 25, 10, 10);
    LabelRaster found = Maps.rectangle(60, 60, 1, 20, 20, 20, 20);
    Truth plain = Truth.ofLabels("d", labels, OptionalDouble.empty());
    Truth outlined =
        withOutlines(labels, List.of(new TruthOutline(MEMORY_ARRAY, Maps.box(20, 20, 20, 20))));
    EdgeError fromLabels = DieScorer.score(Prediction.ofLabels(found), plain).edges();
    EdgeError fromOutline = DieScorer.score(Prediction.ofLabels(found), outlined).edges();
    assertEquals(5, fromLabels.median().orElseThrow(), 1e-12);
    assertEquals("px", fromLabels.unit());
    assertEquals(0, fromOutline.median().orElseThrow(), 1e-12);
  }

  /** Only the cells of a memory are labelled: 100 of its 400 px; the rest is not judged there. */
  @Test
  void wholeMemory_isHeldAgainstItsOutline_whateverTheLabelsLeaveOut() {
    LabelRaster labels = Maps.rectangle(60, 60, 255, 20, 20, 20, 20);
    Maps.paint(labels, 1, 25, 25, 10, 10);
    Truth truth =
        withOutlines(labels, List.of(new TruthOutline(MEMORY_ARRAY, Maps.box(20, 20, 20, 20))));
    ScoreCard cells = DieScorer.score(Prediction.ofLabels(memory(25, 10)), truth);
    assertEquals(1, cells.of(MEMORY_ARRAY).iou().orElseThrow(), 1e-12);
    assertEquals(0.25, cells.wholeMemoryIou().orElseThrow(), 1e-12);
    assertEquals(0.75, cells.notScored(), 1e-12);
    ScoreCard whole = DieScorer.score(Prediction.ofLabels(memory(20, 20)), truth);
    assertEquals(1, whole.wholeMemoryIou().orElseThrow(), 1e-12);
    ScoreCard beyond = DieScorer.score(Prediction.ofLabels(memory(20, 25)), truth);
    assertEquals(400 / 625.0, beyond.wholeMemoryIou().orElseThrow(), 1e-12);
    Truth plain = Truth.ofLabels("d", labels, HALF_UM);
    assertTrue(
        DieScorer.score(Prediction.ofLabels(memory(20, 20)), plain).wholeMemoryIou().isEmpty());
  }

  private static LabelRaster memory(int at, int side) {
    return Maps.rectangle(60, 60, 1, at, at, side, side);
  }

  /** The ring reaches out to the die edge; the truth's outer ring lies inside the seal ring. */
  @Test
  void padRing_isHeldAgainstItsInnerEdgeOnly() {
    LabelRaster found = Maps.rectangle(60, 60, 4, 2, 2, 56, 56);
    Maps.paint(found, 3, 20, 20, 20, 20);
    Outline ring = new Outline(Maps.ring(8, 8, 44, 44), List.of(Maps.ring(20, 20, 20, 20)));
    Truth truth = withOutlines(found, List.of(new TruthOutline(PAD_RING, ring)));
    EdgeError edges = DieScorer.score(Prediction.ofLabels(found), truth).of(PAD_RING).edges();
    assertEquals(80, edges.points());
    assertEquals(0, edges.percentile95().orElseThrow(), 1e-12);
  }

  /** A region that runs out of the photograph has no edge there. */
  @Test
  void frameOfThePhotograph_isNoEdge() {
    LabelRaster left = Maps.rectangle(40, 30, 3, 0, 0, 20, 30);
    Truth outlined = withOutlines(left, List.of(new TruthOutline(LOGIC, Maps.box(0, 0, 20, 30))));
    EdgeError edges = DieScorer.score(Prediction.ofLabels(left), outlined).edges();
    assertEquals(28, edges.points());
    assertEquals(0, edges.percentile95().orElseThrow(), 1e-12);
  }

  @Test
  void shares_areOverTheScoredOnDieArea() {
    LabelRaster truth = Maps.of("0000111133334444????");
    LabelRaster found = Maps.of("4444111333334?044444");
    ScoreCard card =
        DieScorer.score(Prediction.ofLabels(found), Truth.ofLabels("d", truth, HALF_UM));
    assertEquals(-100.0 / 12, card.of(MEMORY_ARRAY).shareErrorPoints(), 1e-9);
    assertEquals(100.0 / 12, card.of(LOGIC).shareErrorPoints(), 1e-9);
    assertEquals(-200.0 / 12, card.of(PAD_RING).shareErrorPoints(), 1e-9);
    assertEquals(200.0 / 12, card.largestShareErrorPoints(), 1e-9);
    assertEquals(1.0 / 12, card.unclearShare(), 1e-12);
    assertEquals(1.0 / 12, card.lostShare(), 1e-12);
    assertEquals(2.0 / 8, card.of(PAD_RING).iou().orElseThrow(), 1e-12);
  }

  /** Two regions: one right (8 of 10 scored), one wrong; weights are their scored areas. */
  @Test
  void regionConfidence_isHeldAgainstTheMajority() {
    LabelRaster truth = new LabelRaster(40, 10);
    Maps.paint(truth, 1, 0, 0, 8, 10);
    Maps.paint(truth, 255, 20, 0, 5, 10);
    Maps.paint(truth, 3, 25, 0, 5, 10);
    LabelRaster found = new LabelRaster(40, 10);
    Maps.paint(found, 1, 0, 0, 10, 10);
    Maps.paint(found, 4, 20, 0, 10, 10);
    List<PredictedRegion> regions =
        List.of(
            new PredictedRegion(MEMORY_ARRAY, 0.9, Maps.box(0, 0, 10, 10)),
            new PredictedRegion(PAD_RING, 0.6, Maps.box(20, 0, 10, 10)));
    Prediction prediction =
        new Prediction(found, regions, Optional.of(new LabelRaster(40, 10)), OptionalInt.of(61));
    Truth truths =
        new Truth(
            "d",
            truth,
            HALF_UM,
            List.of(),
            List.of(),
            OptionalInt.of(62),
            OptionalLong.empty(),
            OptionalDouble.empty());
    ScoreCard card = DieScorer.score(prediction, truths);
    assertEquals(
        (100 * 0.1 + 50 * 0.6) / 150, card.regionsByArea().orElseThrow().expectedError(), 1e-9);
    assertEquals((0.1 + 0.6) / 2, card.regionsEach().orElseThrow().expectedError(), 1e-9);
    assertEquals(150, card.tiles().orElseThrow().totalWeight(), 1e-12);
    assertEquals(80.0 / 150, card.tiles().orElseThrow().expectedError(), 1e-9);
    assertEquals(-1, card.pads().orElseThrow().error());
    assertEquals(-100.0 / 62, card.pads().orElseThrow().errorPercent(), 1e-9);
  }

  /** Even-odd filling by pixel centres: a 10 x 10 box with a 4 x 4 hole holds 84 px. */
  @Test
  void outlineWithHole_countsPixelCentres() {
    Outline outline = new Outline(Maps.ring(2, 3, 10, 10), List.of(Maps.ring(5, 6, 4, 4)));
    assertEquals(84, OutlineFill.histogram(new LabelRaster(20, 20), outline)[0]);
    assertEquals(100, OutlineFill.histogram(new LabelRaster(20, 20), Maps.box(-5, 5, 15, 10))[0]);
  }

  private static Truth withOutlines(LabelRaster labels, List<TruthOutline> outlines) {
    return new Truth(
        "d",
        labels,
        OptionalDouble.empty(),
        outlines,
        List.of(),
        OptionalInt.empty(),
        OptionalLong.empty(),
        OptionalDouble.empty());
  }
}
