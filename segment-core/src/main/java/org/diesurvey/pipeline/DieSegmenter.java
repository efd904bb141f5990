package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.diesurvey.Cancellation;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.NativeLibrary;

/**
 * From a photograph to a survey: the only place that knows the order of the stages. Immutable; one
 * instance may survey many photographs, also at the same time.
 */
@Supported
public final class DieSegmenter {
  /** Asked when it is needed: the shipped model is read while a photograph is. */
  private final Supplier<TileClassifier> classifier;

  private final SegmentSettings settings;
  private final DieEstimator estimator;
  private final Cancellation cancellation;
  private final Tuning tuning;

  private DieSegmenter(
      Supplier<TileClassifier> classifier,
      SegmentSettings settings,
      DieEstimator estimator,
      Cancellation cancellation,
      Tuning tuning) {
    this.classifier = classifier;
    this.cancellation = cancellation;
    this.estimator = estimator;
    NativeLibrary.loadAhead();
    this.settings = settings;
    this.tuning = tuning;
  }

  /** The shipped model and default settings. */
  public static DieSegmenter withDefaults() {
    NativeLibrary.loadAhead();
    TileClassifier.loadAhead();
    return of(TileClassifier::shipped);
  }

  /** Another model than the shipped one, and default settings. */
  public static DieSegmenter of(TileClassifier classifier) {
    return of(() -> classifier);
  }

  private static DieSegmenter of(Supplier<TileClassifier> classifier) {
    return new DieSegmenter(
        classifier,
        SegmentSettings.defaults(),
        DieEstimator.of(DensityTable.shipped()),
        new Cancellation(),
        Tuning.DEFAULT);
  }

  /** The same model with other settings. */
  public DieSegmenter with(SegmentSettings other) {
    return new DieSegmenter(classifier, other, estimator, cancellation, tuning);
  }

  /** The same settings with another model. */
  public DieSegmenter with(TileClassifier other) {
    return new DieSegmenter(() -> other, settings, estimator, cancellation, tuning);
  }

  /** The same with other estimates, for example of a table with the user's own rows. */
  public DieSegmenter with(DieEstimator other) {
    return new DieSegmenter(classifier, settings, other, cancellation, tuning);
  }

  /** The same, whose surveys end when this is cancelled. */
  public DieSegmenter with(Cancellation other) {
    return new DieSegmenter(classifier, settings, estimator, other, tuning);
  }

  /**
   * The same with other values than the ordinary ones, for measuring what hangs on them. Surveys
   * say so in the notice "other-tuning".
   */
  public DieSegmenter with(Tuning other) {
    return new DieSegmenter(classifier, settings, estimator, cancellation, other);
  }

  /** What judges the tiles. */
  public TileClassifier classifier() {
    return classifier.get();
  }

  /** The settings. */
  public SegmentSettings settings() {
    return settings;
  }

  /** The values that decide most. */
  public Tuning tuning() {
    return tuning;
  }

  /**
   * All that a survey depends on besides the photograph and its scale, by name: equal identities
   * give equal surveys.
   */
  public SortedMap<String, String> identity() {
    SortedMap<String, String> parts = new TreeMap<>();
    parts.put("software_version", TileClassifier.programVersion());
    parts.put("model_sha256", classifier.get().sha256());
    parts.put("tile_um", Double.toString(settings.tileUm()));
    parts.put("node_nm", settings.nodeNm().isPresent() ? settings.nodeNm().toString() : "");
    DensityTable table = estimator.table();
    parts.put("densities", table.name() + " " + table.version() + " " + table.rows());
    if (!tuning.equals(Tuning.DEFAULT)) {
      parts.put("tuning", tuning.differences());
    }
    return parts;
  }

  /**
   * Surveys a photograph whose pixel pitch is known.
   *
   * @throws org.diesurvey.DieInputException if the photograph cannot be surveyed
   */
  public Survey segment(DiePhoto photo, Calibration scale) {
    return survey(photo, new ScaleInput.Known(scale)).survey();
  }

  /**
   * Surveys a photograph.
   *
   * @throws org.diesurvey.DieInputException if the photograph cannot be surveyed, or the die size
   *     is given and no die edge is found
   * @throws org.diesurvey.CancelledException if it is cancelled, or the thread interrupted
   */
  public SurveyResult survey(DiePhoto photo, ScaleInput scale) {
    return survey(photo, scale, stage -> {});
  }

  /**
   * Surveys a photograph and tells how far it is.
   *
   * @param onStageDone told the name of every stage that is done, in the order of {@link
   *     StageTimes}, from a worker thread
   * @throws org.diesurvey.DieInputException as without the listener
   */
  public SurveyResult survey(DiePhoto photo, ScaleInput scale, Consumer<String> onStageDone) {
    return survey(photo, scale, PhotoOptions.NONE, onStageDone);
  }

  /**
   * Surveys a photograph of which more is known than its scale.
   *
   * @param options which die, and the light
   * @param onStageDone told the name of every stage that is done
   * @throws org.diesurvey.DieInputException as without options; also if there is no die of that
   *     number, or the flat field does not fit the photograph
   */
  public SurveyResult survey(
      DiePhoto photo, ScaleInput scale, PhotoOptions options, Consumer<String> onStageDone) {
    Laps laps = new Laps(onStageDone);
    return onThreads(
        photo,
        () -> {
          settings.nodeNm().ifPresent(estimator.table()::requireNode);
          try (DieReading reading = read(photo, scale, options, laps)) {
            return formed(reading, laps);
          }
        });
  }

  <T> T onThreads(DiePhoto photo, Callable<T> work) {
    return Workers.run(
        settings.threads(), "surveying " + photo.info().fileName(), cancellation, work);
  }

  DieReading read(DiePhoto photo, ScaleInput input, PhotoOptions options, Laps laps) {
    return DieReading.of(photo, input, options, classifier, settings.tileUm(), tuning, laps);
  }

  /** Regions, measures and estimates of what was read. */
  SurveyResult formed(DieReading reading, Laps laps) {
    DieLocation frame = reading.chosen().frame();
    FeatureTable features = reading.views().features();
    Optional<Calibration> calibration = reading.calibration();
    PreparedDie die = reading.views().tiled().die();
    TileGrid grid = reading.views().tiled().grid();
    TileProbabilities tiles = reading.views().tiles(tuning.lattice());
    List<DieRegion> regions =
        RegionChain.of(tiles, features, classifier(), ShownPart.of(die, grid), tuning.regions());
    UnfamiliarityCheck doubt =
        UnfamiliarityCheck.of(
            classifier(), features, frame.edgeFound(), die.toneExponent(), tuning.familiarity());
    regions = doubt.applied(regions, calibration.isPresent());
    laps.done("regions");
    Survey survey =
        new SurveyAssembler(
                reading.photo(),
                reading.chosen(),
                die,
                grid,
                features,
                calibration,
                reading.views().range())
            .assemble(regions, classifier(), settings, reading.options());
    List<Notice> notices = new ArrayList<>(survey.notices());
    notices.addAll(doubt.notices());
    notices.addAll(tuning.notices());
    survey = SurveyEstimates.add(survey.withNotices(notices), estimator, false, Map.of());
    laps.done("measures");
    return new SurveyResult(survey, die, tiles, laps.times());
  }

  /** Whether a scale came from the photo's own metadata and so needs a warning. */
  static boolean fromMetadata(Calibration c) {
    return c.origin() == ScaleOrigin.PHOTO_METADATA;
  }
}
