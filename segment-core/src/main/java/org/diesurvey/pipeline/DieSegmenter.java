package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;
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
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.regions.DamagedPlaces;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.RegionBuilder;
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
  private final TileClassifier classifier;
  private final SegmentSettings settings;
  private final DieEstimator estimator;
  private final Cancellation cancellation;

  private DieSegmenter(
      TileClassifier classifier,
      SegmentSettings settings,
      DieEstimator estimator,
      Cancellation cancellation) {
    this.classifier = classifier;
    this.cancellation = cancellation;
    this.estimator = estimator;
    NativeLibrary.loadAhead();
    this.settings = settings;
  }

  /** The shipped model and default settings. */
  public static DieSegmenter withDefaults() {
    NativeLibrary.loadAhead();
    return of(TileClassifier.shipped());
  }

  /** Another model than the shipped one, and default settings. */
  public static DieSegmenter of(TileClassifier classifier) {
    return new DieSegmenter(
        classifier,
        SegmentSettings.defaults(),
        DieEstimator.of(DensityTable.shipped()),
        new Cancellation());
  }

  /** The same model with other settings. */
  public DieSegmenter with(SegmentSettings other) {
    return new DieSegmenter(classifier, other, estimator, cancellation);
  }

  /** The same settings with another model. */
  public DieSegmenter with(TileClassifier other) {
    return new DieSegmenter(other, settings, estimator, cancellation);
  }

  /** The same with other estimates, for example of a table with the user's own rows. */
  public DieSegmenter with(DieEstimator other) {
    return new DieSegmenter(classifier, settings, other, cancellation);
  }

  /** The same, whose surveys end when this is cancelled. */
  public DieSegmenter with(Cancellation other) {
    return new DieSegmenter(classifier, settings, estimator, other);
  }

  /** What judges the tiles. */
  public TileClassifier classifier() {
    return classifier;
  }

  /** The settings. */
  public SegmentSettings settings() {
    return settings;
  }

  /**
   * All that a survey depends on besides the photograph and its scale, by name: equal identities
   * give equal surveys.
   */
  public SortedMap<String, String> identity() {
    SortedMap<String, String> parts = new TreeMap<>();
    parts.put("software_version", TileClassifier.programVersion());
    parts.put("model_sha256", classifier.sha256());
    parts.put("tile_um", Double.toString(settings.tileUm()));
    parts.put("node_nm", settings.nodeNm().isPresent() ? settings.nodeNm().toString() : "");
    DensityTable table = estimator.table();
    parts.put("densities", table.name() + " " + table.version() + " " + table.rows());
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
    return Workers.run(
        settings.threads(),
        "surveying " + photo.info().fileName(),
        cancellation,
        () -> run(photo, scale, options, onStageDone));
  }

  private SurveyResult run(
      DiePhoto photo, ScaleInput input, PhotoOptions options, Consumer<String> onStageDone) {
    Laps laps = new Laps(onStageDone);
    settings.nodeNm().ifPresent(estimator.table()::requireNode);
    options.flatField().ifPresent(f -> f.requireFits(photo.info()));
    photo.requireContent();
    laps.done("read");
    ChosenDie chosen = ChosenDie.of(photo, options);
    DieLocation frame = chosen.frame();
    laps.done("locate");
    Optional<Calibration> calibration = Scales.resolve(input, frame, photo.info().fileName());
    laps.done("scale");
    // A flat field divides levels that are proportional to the light.
    PixelSource pixels = options.flatField().isPresent() ? photo.proportional() : photo.pixels();
    PitchHypotheses views =
        calibration.isPresent()
            ? known(pixels, frame, calibration.get(), options, laps)
            : unknown(pixels, frame, options, laps);
    laps.done("classification");
    try (FeatureTable features = views.features()) {
      return regions(photo, options, chosen, calibration, views, features, laps);
    }
  }

  private PitchHypotheses known(
      PixelSource pixels, DieLocation frame, Calibration scale, PhotoOptions options, Laps laps) {
    double pitch = scale.umPerPx().value();
    TiledDie tiled = TiledDie.of(pixels, frame, pitch, settings.tileUm(), options.flatField());
    FeatureTable features = FeatureTable.extract(tiled.die(), tiled.grid());
    laps.done("features");
    return PitchHypotheses.withKnownPitch(
        classifier, pitch, tiled, features, classifier.classify(features, frame.realEdges()));
  }

  private PitchHypotheses unknown(
      PixelSource pixels, DieLocation frame, PhotoOptions options, Laps laps) {
    PitchHypotheses views =
        PitchHypotheses.of(pixels, frame, classifier, settings.tileUm(), options.flatField());
    laps.done("features");
    return views;
  }

  private SurveyResult regions(
      DiePhoto photo,
      PhotoOptions options,
      ChosenDie chosen,
      Optional<Calibration> calibration,
      PitchHypotheses views,
      FeatureTable features,
      Laps laps) {
    DieLocation frame = chosen.frame();
    PreparedDie die = views.tiled().die();
    TileGrid grid = views.tiled().grid();
    TileProbabilities tiles = views.tiles();
    boolean[] onDie = OnDie.tiles(die, grid);
    List<DieRegion> regions =
        RegionBuilder.of(tiles, features, classifier.regionConfidence(), onDie, frame.realEdges());
    regions = RegionTiles.withoutMosaics(regions, features, grid);
    regions = DamagedPlaces.cut(regions, features.damage(), grid);
    UnfamiliarityCheck doubt =
        UnfamiliarityCheck.of(classifier, features, frame.edgeFound(), die.toneExponent());
    regions = doubt.applied(VisibleRegions.of(regions, die), calibration.isPresent());
    laps.done("regions");
    Survey survey =
        new SurveyAssembler(photo, chosen, die, grid, features, calibration, views.range())
            .assemble(regions, classifier, settings, options);
    survey = survey.withNotices(joined(survey.notices(), doubt.notices()));
    survey = SurveyEstimates.add(survey, estimator, false, Map.of());
    laps.done("measures");
    return new SurveyResult(survey, die, tiles, laps.times());
  }

  private static List<Notice> joined(List<Notice> a, List<Notice> b) {
    List<Notice> all = new ArrayList<>(a);
    all.addAll(b);
    return all;
  }

  /** Notes the time of every stage as it ends. */
  private static final class Laps {
    private final Map<String, Double> seconds = new LinkedHashMap<>();
    private final Consumer<String> onStageDone;
    private long since = System.nanoTime();

    Laps(Consumer<String> onStageDone) {
      this.onStageDone = onStageDone;
    }

    void done(String stage) {
      Cancellation.check();
      long now = System.nanoTime();
      seconds.put(stage, (now - since) / 1e9);
      since = now;
      onStageDone.accept(stage);
    }

    StageTimes times() {
      return new StageTimes(seconds);
    }
  }

  /** Whether a scale came from the photo's own metadata and so needs a warning. */
  static boolean fromMetadata(Calibration c) {
    return c.origin() == ScaleOrigin.PHOTO_METADATA;
  }
}
