package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.classification.DieClass;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;
import org.junit.jupiter.api.Test;

class PredictionTest {
  private static final LabelRaster MAP = new LabelRaster(30, 20);

  @Test
  void survey_givesItsClassedRegionsAndAllItsBondPads() {
    Survey survey =
        survey(
            region("MEM1", DieClass.MEMORY_ARRAY, OptionalInt.empty()),
            region("PAD1", DieClass.PAD_RING, OptionalInt.of(30)),
            region("PAD2", DieClass.PAD_RING, OptionalInt.of(12)),
            region("UNC1", DieClass.UNCLEAR, OptionalInt.empty()));
    Prediction prediction = Prediction.of(survey, MAP, Optional.empty());
    assertEquals(
        List.of(DieClass.MEMORY_ARRAY, DieClass.PAD_RING, DieClass.PAD_RING),
        prediction.regions().stream().map(Prediction.PredictedRegion::dieClass).toList());
    assertEquals(OptionalInt.of(42), prediction.bondPads());
  }

  @Test
  void surveyWithoutAPadRing_hasCountedNoPads() {
    Survey survey = survey(region("MEM1", DieClass.MEMORY_ARRAY, OptionalInt.empty()));
    assertEquals(OptionalInt.empty(), Prediction.of(survey, MAP, Optional.empty()).bondPads());
  }

  @Test
  void confidenceMapOfAnotherSize_isRefused() {
    Optional<LabelRaster> other = Optional.of(new LabelRaster(20, 30));
    Survey survey = survey();
    assertThrows(IllegalArgumentException.class, () -> Prediction.of(survey, MAP, other));
  }

  private static SurveyRegion region(String id, DieClass dieClass, OptionalInt pads) {
    return new SurveyRegion(
        id,
        new ClassVerdict(dieClass, Optional.empty(), 0.9, Map.of()),
        RegionShape.of(Maps.box(0, 0, 10, 10)),
        Optional.empty(),
        new RegionArea(100, Optional.empty(), 0.2, Optional.empty()),
        List.of(),
        Optional.empty(),
        List.of(),
        pads.isPresent()
            ? Optional.of(new BondPadCount(pads.getAsInt(), Optional.empty()))
            : Optional.empty());
  }

  private static Survey survey(SurveyRegion... regions) {
    return new Survey(
        new PhotoInfo("d.png", "0".repeat(64), 1, "PNG", 30, 20, 8, 1, Optional.empty()),
        new SurveyMethod(
            new Software("diesurvey", "0", "none", "0".repeat(64)), 1, OptionalDouble.empty(), 10),
        new ScaleRecord(Optional.empty(), Optional.empty()),
        new DieFrame(
            false, List.of(), 0, Optional.empty(), Optional.empty(), Optional.empty(), 600),
        Preparation.NONE,
        List.of(regions),
        List.of(),
        List.of(),
        Optional.empty());
  }
}
