package org.diesurvey.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.diesurvey.SharedData;
import org.diesurvey.SharedSurveys;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieMeasurer;
import org.diesurvey.pipeline.HandOutlines;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a survey writes can be measured: surveys of the outside pictures, exported in every kind
 * that holds outlines, are read back whole; measured in one kind, the kinds in turns, since
 * measuring takes as long as a survey, they have the regions and the areas that they had.
 */
@Tag("slow")
class WrittenAndReadBackTest {
  /** Kinds in um are written to the nanometre, those in px to a hundredth and finer. */
  private static final double TOLERANCE = 1e-3;

  private static final double FEW_PX = 4;

  @TempDir Path folder;

  @Test
  void surveysOfOpenLayouts_inEveryKind() {
    List<Path> all = new ArrayList<>(SharedData.openDies());
    all.addAll(SharedData.openChips());
    readBack(all);
  }

  @Test
  void surveysOfRealPhotographs_inEveryKind() {
    readBack(SharedData.realPhotos());
  }

  private void readBack(List<Path> truths) {
    int turn = 0;
    for (Path json : truths) {
      Survey survey = SharedSurveys.of(json);
      if (survey.regions().isEmpty()) {
        continue;
      }
      List<ExportKind> kinds =
          survey.scale().calibration().isPresent()
              ? List.of(
                  ExportKind.GEOJSON, ExportKind.SVG, ExportKind.GDSII, ExportKind.ANNOTATIONS)
              : List.of(ExportKind.SVG, ExportKind.ANNOTATIONS);
      for (ExportKind kind : kinds) {
        Path file = folder.resolve(survey.photo().fileName() + "." + kind);
        new SurveyExport(survey, Instant.EPOCH, Optional.of("die.jpg"), Optional.empty())
            .write(kind, file);
        HandOutlines read = HandOutlines.read(file);
        assertEquals(survey.regions().size(), read.regions().size(), file.toString());
        if (kind == kinds.get(turn % kinds.size())) {
          alike(survey, measured(json, read), file.getFileName().toString());
        }
      }
      turn++;
    }
  }

  private static Survey measured(Path json, HandOutlines outlines) {
    try (DiePhoto photo = DiePhoto.open(SharedSurveys.photo(json))) {
      return new DieMeasurer(
              SegmentSettings.defaults(),
              DieEstimator.of(DensityTable.shipped()),
              TileClassifier.programVersion())
          .measure(photo, SharedSurveys.scale(json), outlines);
    }
  }

  private static void alike(Survey written, Survey read, String what) {
    assertEquals(areas(written).keySet(), areas(read).keySet(), what);
    areas(written)
        .forEach(
            (id, area) ->
                assertEquals(
                    area,
                    areas(read).get(id),
                    Math.max(FEW_PX, TOLERANCE * area),
                    what + " " + id));
  }

  private static Map<String, Double> areas(Survey survey) {
    Map<String, Double> areas = new TreeMap<>();
    survey.regions().forEach(r -> areas.put(r.id(), r.area().px2()));
    return areas;
  }
}
