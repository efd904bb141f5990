package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.diesurvey.SharedData;
import org.diesurvey.SharedSurveys;
import org.diesurvey.classification.DieClass;
import org.diesurvey.report.picture.LabelMap;
import org.diesurvey.scoring.DieScorer;
import org.diesurvey.scoring.Prediction;
import org.diesurvey.scoring.ScoreCard;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Real photographs (CC0) of unknown scale, labelled by eye: see the SOURCES.md of the set. */
@Tag("slow")
class RealPhotosTest {
  /** A little below what the results state, 2026-11-29; IoU of memory. */
  private static final Map<String, Double> LEAST_IOU =
      Map.of(
          "block-a-diffusion", 0.97,
          "logic-arrays-b-polysilicon", 0.95,
          "memory-c-polysilicon", 0.85);

  @Test
  void memories_areFoundWithoutAScale_andMetalIsTold() {
    Map<String, Double> iou = new TreeMap<>();
    for (Path json : SharedData.realPhotos()) {
      Truth truth = TruthFile.read(json);
      Survey survey = SharedSurveys.of(json);
      boolean metal = truth.name().contains("metal-on");
      assertTrue(survey.scale().inferred().isPresent(), truth.name());
      assertTrue(survey.regions().stream().allMatch(r -> r.areaMm2().isEmpty()), truth.name());
      assertEquals(
          metal,
          survey.notices().stream().anyMatch(n -> n.id().equals("metal-left")),
          truth.name());
      if (!metal) {
        ScoreCard card =
            DieScorer.score(Prediction.of(survey, LabelMap.of(survey), Optional.empty()), truth);
        iou.put(truth.name(), card.of(DieClass.MEMORY_ARRAY).iou().orElseThrow());
      }
    }
    assertEquals(LEAST_IOU.keySet(), iou.keySet());
    iou.forEach((name, v) -> assertTrue(v >= LEAST_IOU.get(name), name + " " + v));
  }
}
