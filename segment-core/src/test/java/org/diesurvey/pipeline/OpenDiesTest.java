package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.diesurvey.SharedData;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.report.LabelMap;
import org.diesurvey.scoring.DieScorer;
import org.diesurvey.scoring.Prediction;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyJson;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Photographs rendered from open layouts, which the shipped model was not trained on: the truth is
 * the layout's own (see the SOURCES.md of the set).
 */
@Tag("slow")
class OpenDiesTest {
  private static final double LEAST_MEAN_IOU = 0.80;
  private static final double LEAST_IOU_OF_A_DIE = 0.65;

  @Test
  void openLayouts_areSurveyedAsWellAsPromised() {
    Schema schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SurveyJson.schema());
    Map<String, Double> iou = new TreeMap<>();
    for (Path json : SharedData.openDies()) {
      Truth truth = TruthFile.read(json);
      Survey survey = survey(truth, json);
      String text = new String(SurveyJson.write(survey, Optional.empty()), StandardCharsets.UTF_8);
      assertEquals("[]", schema.validate(text, InputFormat.JSON).toString(), truth.name());
      Prediction prediction = Prediction.of(survey, LabelMap.of(survey), Optional.empty());
      iou.put(truth.name(), DieScorer.score(prediction, truth).meanIou().orElseThrow());
    }
    double mean = iou.values().stream().mapToDouble(v -> v).average().orElseThrow();
    double worst = iou.values().stream().mapToDouble(v -> v).min().orElseThrow();
    assertTrue(mean >= LEAST_MEAN_IOU, "mean IoU " + mean + ": " + iou);
    assertTrue(worst >= LEAST_IOU_OF_A_DIE, "worst IoU " + worst + ": " + iou);
  }

  private static Survey survey(Truth truth, Path json) {
    double pitch = truth.umPerPx().orElseThrow();
    try (DiePhoto photo = DiePhoto.open(json.resolveSibling(truth.name() + ".jpg"))) {
      return DieSegmenter.withDefaults()
          .segment(photo, Calibration.ofPixelPitch(pitch, 0.002 * pitch));
    }
  }
}
