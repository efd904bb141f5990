package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.edges.EdgeTuning;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.tiles.TileGrid;

/**
 * From a photograph and outlines that a person drew to a survey: the same measures and estimates as
 * {@link DieSegmenter}, without classifying anything. Immutable.
 */
@Supported
public final class DieMeasurer {
  private final SegmentSettings settings;
  private final DieEstimator estimator;
  private final String version;

  /**
   * @param settings tiles and node
   * @param estimator of bits and gates
   * @param softwareVersion for the survey
   */
  public DieMeasurer(SegmentSettings settings, DieEstimator estimator, String softwareVersion) {
    this.settings = settings;
    this.estimator = estimator;
    this.version = softwareVersion;
  }

  /**
   * Measures the outlined regions.
   *
   * @throws DieInputException if the photograph or the outlines cannot be used, if they name
   *     another photograph, or if outlines in um meet a photograph without a scale
   */
  public Survey measure(DiePhoto photo, ScaleInput input, HandOutlines outlines) {
    OutlineChecks.requirePhoto(outlines.photo(), photo.info().sha256(), outlines.fileName());
    photo.requireContent();
    ChosenDie chosen = ChosenDie.of(photo, PhotoOptions.NONE, EdgeTuning.DEFAULT);
    DieLocation frame = chosen.frame();
    Optional<Calibration> calibration = Scales.resolve(input, frame, photo.info().fileName());
    if (calibration.isEmpty() && outlines.inUm()) {
      throw new DieInputException(
          Reason.OUTLINES_INVALID,
          outlines.fileName()
              + ": the outlines are in um, but the photograph has no scale: state it, for example"
              + " with --um-per-px.");
    }
    // Without a scale the pitch only sets the side of the tiles that periods are read from.
    double pitch = calibration.map(c -> c.umPerPx().value()).orElse(0.5);
    TiledDie tiled = TiledDie.of(photo.pixels(), frame, pitch, settings.tileUm());
    PreparedDie die = tiled.die();
    TileGrid grid = tiled.grid();
    List<HandOutline> order = byClass(outlines.regions());
    HandOutlines sorted =
        new HandOutlines(
            outlines.fileName(), outlines.sha256(), outlines.inUm(), outlines.photo(), order);
    Map<String, DieRegion> regions = new OutlinePlacing(sorted, die, grid.pitchUm()).regions();
    Survey survey;
    try (FeatureTable features = FeatureTable.extract(die, grid)) {
      survey =
          new SurveyAssembler(
                  photo,
                  chosen,
                  die,
                  grid,
                  features,
                  calibration,
                  Optional.<ScaleRecord.InferredRange>empty())
              .assemble(
                  List.copyOf(regions.values()),
                  List.copyOf(regions.keySet()),
                  new Software("Diesurvey", version, "outlines by hand", outlines.sha256()),
                  settings,
                  PhotoOptions.NONE);
    }
    List<Notice> notices = new ArrayList<>();
    notices.add(byHand(outlines));
    notices.addAll(survey.notices());
    return SurveyEstimates.add(survey.withNotices(notices), estimator, true, known(order));
  }

  private static List<HandOutline> byClass(List<HandOutline> regions) {
    List<HandOutline> out = new ArrayList<>();
    for (DieClass c : DieClass.values()) {
      regions.stream().filter(r -> r.dieClass() == c).forEach(out::add);
    }
    return out;
  }

  private static Map<String, SurveyEstimates.Knowledge> known(List<HandOutline> regions) {
    Map<String, SurveyEstimates.Knowledge> known = new HashMap<>();
    for (HandOutline h : regions) {
      known.put(h.id(), new SurveyEstimates.Knowledge(h.memoryKind(), h.ports()));
    }
    return known;
  }

  private static Notice byHand(HandOutlines outlines) {
    return new Notice(
        "outlines-by-hand",
        "Outlines and classes were stated by a person ("
            + outlines.fileName()
            + "); nothing was classified, so confidence and probabilities are stated, not"
            + " measured.",
        "Check the outlines on the overlay.");
  }
}
