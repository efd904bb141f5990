package org.diesurvey.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.Cancellation;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.comparison.changes.ChangeFinder;
import org.diesurvey.comparison.changes.ChangeKindClassifier;
import org.diesurvey.comparison.changes.ChangeWriter;
import org.diesurvey.comparison.changes.RegionMatcher;
import org.diesurvey.comparison.changes.Totals;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.document.Registration;
import org.diesurvey.comparison.registration.CoarseSearch;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.comparison.registration.Frames;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.registration.ScaledDie;
import org.diesurvey.comparison.tiles.DifferenceMap;
import org.diesurvey.comparison.tiles.TileChangeClassifier;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.pipeline.Workers;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.SevereNotice;
import org.diesurvey.survey.Survey;

/**
 * From two surveys with their photographs to a comparison. Immutable; one instance may compare many
 * pairs, also at the same time.
 */
@Supported
public final class LayoutComparer {
  /** Fewest local matches that must agree, and the least share of all clear ones. */
  private static final int LEAST_AGREEING = 16;

  private static final double LEAST_SHARE = 0.3;

  /**
   * Cells of the pad rings of different chips of one technology may be alike: up to 30 matches then
   * agree, but no better than within 0.46 px, where those of one chip scatter by 0.04 to 0.16 px
   * (drawn pairs). Beyond this scatter, px, so many must agree.
   */
  private static final double SHARP_SCATTER = 0.3;

  private static final int LEAST_SCATTERED = 48;

  private final String softwareVersion;
  private final int threads;
  private final TileClassifier classifier;
  private final TileChangeClassifier changes;
  private final ChangeKindClassifier kinds;

  /**
   * Uses all processors.
   *
   * @param softwareVersion for the document
   */
  public LayoutComparer(String softwareVersion) {
    this(softwareVersion, Runtime.getRuntime().availableProcessors());
  }

  /**
   * @param softwareVersion for the document
   * @param threads at least 1; the result does not depend on it
   */
  public LayoutComparer(String softwareVersion, int threads) {
    this(softwareVersion, threads, TileClassifier.shipped());
  }

  /**
   * @param softwareVersion for the document
   * @param threads at least 1; the result does not depend on it
   * @param classifier judges the tiles of surveys that were read from files
   */
  public LayoutComparer(String softwareVersion, int threads, TileClassifier classifier) {
    this(
        softwareVersion,
        threads,
        classifier,
        TileChangeClassifier.shipped(),
        ChangeKindClassifier.shipped());
  }

  public LayoutComparer(
      String softwareVersion,
      int threads,
      TileClassifier classifier,
      TileChangeClassifier changes,
      ChangeKindClassifier kinds) {
    this.softwareVersion = softwareVersion;
    this.threads = threads;
    this.classifier = classifier;
    this.changes = changes;
    this.kinds = kinds;
  }

  /**
   * Compares the second die with the first.
   *
   * @throws DieInputException with {@code NO_COMMON_LAYOUT} if the two are different chips
   */
  public ComparisonResult compare(ComparisonSide a, ComparisonSide b) {
    return compare(a, b, new Cancellation());
  }

  /**
   * The same, to be ended from elsewhere.
   *
   * @param cancellation ends the comparison
   * @throws DieInputException with {@code NO_COMMON_LAYOUT} if the two are different chips
   * @throws org.diesurvey.CancelledException if it was cancelled, or the thread interrupted
   */
  public ComparisonResult compare(ComparisonSide a, ComparisonSide b, Cancellation cancellation) {
    return Workers.run(threads, "comparing", cancellation, () -> run(a, b));
  }

  private ComparisonResult run(ComparisonSide a, ComparisonSide b) {
    OfBoth<ComparisonSide> sides = new OfBoth<>(a, b);
    OfBoth<ScaledDie> dies = sides.map(ScaledDie::of);
    Registrar.Found found = new Registrar(dies.first(), dies.second()).find();
    if (!common(found)) {
      throw refusal(a, b, found);
    }
    return compared(sides, dies, found);
  }

  /** Whether two dies have a layout in common. */
  public static boolean common(Registrar.Found found) {
    return found.fit().agreeing().size() >= leastAgreeing(found) && found.share() >= LEAST_SHARE;
  }

  private static int leastAgreeing(Registrar.Found found) {
    return found.fit().scatter() <= SHARP_SCATTER ? LEAST_AGREEING : LEAST_SCATTERED;
  }

  /** The two dies tile by tile, before changes are named. */
  public static final class Judged {
    public final Frames frames;
    public final OfBoth<TileClasses> classes;
    public final TileComparison agreement;

    private Judged(Frames frames, OfBoth<TileClasses> classes, TileComparison agreement) {
      this.frames = frames;
      this.classes = classes;
      this.agreement = agreement;
    }
  }

  public Judged judged(
      OfBoth<ComparisonSide> sides, OfBoth<ScaledDie> dies, Registrar.Found found) {
    Frames frames = Frames.of(dies.first(), dies.second(), found);
    int side = TileComparison.sidePx(found.pitchUm());
    int columns = found.finest().a.width() / side;
    int rows = found.finest().a.height() / side;
    PlaneTransform toGrid = frames.gridFromUm(side * found.pitchUm());
    PlaneTransform inB = frames.ownToUmB().then(found.aToB().inverse()).then(toGrid);
    OfBoth<TileClasses> classes =
        new OfBoth<>(
            TileClasses.of(sides.first().survey(), frames.ownToUmA().then(toGrid), columns, rows),
            TileClasses.of(sides.second().survey(), inB, columns, rows));
    OfBoth<TileLooks> looks =
        new OfBoth<>(
            looks(sides.first(), dies.first(), toGrid.inverse(), columns, rows),
            looks(
                sides.second(), dies.second(), toGrid.inverse().then(found.aToB()), columns, rows));
    return new Judged(frames, classes, new TileComparison(found, classes, looks, changes, side));
  }

  /** What differs between two dies that were registered. */
  ComparisonResult compared(
      OfBoth<ComparisonSide> sides, OfBoth<ScaledDie> dies, Registrar.Found found) {
    ComparisonSide a = sides.first();
    ComparisonSide b = sides.second();
    ScaledDie dieA = dies.first();
    ScaledDie dieB = dies.second();
    Judged judged = judged(sides, dies, found);
    Frames frames = judged.frames;
    OfBoth<TileClasses> classes = judged.classes;
    TileComparison agreement = judged.agreement;
    Measured ratio = scaleRatio(found, a.survey(), b.survey());
    boolean conflict = conflict(ratio, a.survey(), b.survey());
    Registration registration = registration(found, frames, ratio, conflict);
    boolean grown = dieSizeDiffers(dieA, dieB, found);
    List<ChangeFinder.ConfirmedChange> told =
        new ChangeFinder(agreement, classes, kinds).find(found.pitchUm(), grown);
    ChangeWriter writer = new ChangeWriter(frames, agreement, classes, registration);
    List<Change> changes = writer.changes(told, grown);
    Comparison comparison =
        new Comparison(
            softwareVersion,
            frames.unit(),
            Totals.die(a.survey()),
            Totals.die(b.survey()),
            registration,
            changes,
            new RegionMatcher(agreement, classes, changes).matches(),
            Totals.totals(a.survey(), b.survey(), found.guess().orientation(), ratio.value()),
            Totals.estimates(a.survey(), b.survey()),
            writer.summary(),
            notices(a, b, ratio, conflict, grown));
    return new ComparisonResult(
        comparison,
        new DifferenceMap(
            agreement.tiles.columns,
            agreement.tiles.rows,
            agreement.tileUm * frames.perUm(),
            agreement.similarity,
            agreement.state),
        new DiePlace(dieA.die(), dieA.umPerPx() * frames.perUm()),
        new DiePlace(dieB.die(), dieB.umPerPx() * frames.perUmB()));
  }

  private TileLooks looks(
      ComparisonSide side, ScaledDie die, PlaneTransform toDieUm, int columns, int rows) {
    return TileLooks.of(
        side.tiles().orElseGet(() -> judged(side, die)), die.umPerPx(), toDieUm, columns, rows);
  }

  private TileProbabilities judged(ComparisonSide side, ScaledDie upright) {
    TiledDie tiled = TiledDie.of(upright.die(), upright.umPerPx(), SegmentSettings.DEFAULT_TILE_UM);
    try (FeatureTable features = FeatureTable.extract(tiled.die(), tiled.grid())) {
      return classifier.classify(features, side.survey().die().realEdges());
    }
  }

  private static DieInputException refusal(
      ComparisonSide a, ComparisonSide b, Registrar.Found found) {
    StringBuilder tried = new StringBuilder();
    for (CoarseSearch.Guess g : found.tried()) {
      tried.append(tried.isEmpty() ? "" : ", ").append(g.orientation().label());
    }
    return new DieInputException(
        Reason.NO_COMMON_LAYOUT,
        String.format(
            Locale.ROOT,
            "%s and %s: no common layout found, so they seem to be different chips. Tried: the"
                + " second die %s, at scale ratios of 0.90 to 1.11; at the best of them %d of %d"
                + " local matches agree, %d are needed: check that both show the same chip, and"
                + " that their scales are right.",
            a.photo().info().fileName(),
            b.photo().info().fileName(),
            tried,
            found.fit().agreeing().size(),
            found.places(),
            leastAgreeing(found)));
  }

  /** Geometric mean over the axes, free of the shear. */
  private static Measured scaleRatio(Registrar.Found found, Survey a, Survey b) {
    PlaneTransform t = found.aToB();
    double ratio = Math.sqrt(Math.abs(t.a() * t.e() - t.b() * t.d()));
    double span = Math.max(1, found.finest().a.width() * found.pitchUm());
    double u =
        3
                * found.fit().scatter()
                * found.pitchUm()
                / span
                / Math.sqrt(Math.max(1, found.fit().agreeing().size()))
            + 1e-5;
    return new Measured(ratio, Math.hypot(u * ratio, 0.0002 * ratio));
  }

  /** Relative standard uncertainty of a scale; that of a statement without one is not known. */
  private static double relative(Survey s) {
    return s.scale().calibration().map(c -> c.umPerPx().relativeUncertainty()).orElse(0.0);
  }

  private static boolean conflict(Measured ratio, Survey a, Survey b) {
    Optional<Calibration> ca = a.scale().calibration();
    Optional<Calibration> cb = b.scale().calibration();
    if (ca.isEmpty() || cb.isEmpty()) {
      return false;
    }
    double u =
        Math.sqrt(
            Math.pow(relative(a), 2)
                + Math.pow(relative(b), 2)
                + Math.pow(ratio.relativeUncertainty(), 2));
    return Math.abs(ratio.value() - 1) > Math.max(0.002, 3 * u);
  }

  private static Registration registration(
      Registrar.Found found, Frames frames, Measured ratio, boolean conflict) {
    PlaneTransform t = found.aToB();
    double x = Math.hypot(t.a(), t.d());
    double y = Math.hypot(t.b(), t.e());
    Orientation o = found.guess().orientation();
    // What is left of the map when the orientation is taken out (y down, so signs turn).
    double turn = Math.atan2(o.xy() * t.a() - o.yy() * t.d(), o.xx() * t.a() - o.yx() * t.d());
    double residual = found.fit().scatter() * found.pitchUm() * frames.perUm();
    List<Registration.Trial> tried = new ArrayList<>();
    double best = found.tried().isEmpty() ? 1 : Math.max(1e-9, found.tried().get(0).score());
    for (CoarseSearch.Guess g : found.tried()) {
      tried.add(
          new Registration.Trial(g.orientation(), g.score() / best, g.ratio(), Optional.empty()));
    }
    return new Registration(
        o,
        frames.aToB(),
        new Registration.Parts(Math.toDegrees(turn), ratio, conflict, 100 * (x / y - 1)),
        new Registration.Fit(
            residual,
            Math.hypot(
                residual / Math.sqrt(Math.max(1, found.fit().agreeing().size())),
                0.05 * found.pitchUm() * frames.perUm()),
            found.places(),
            found.fit().agreeing().size(),
            found.share()),
        "Coarse structure correlated in eight orientations; local matches on a raster of "
            + String.format(Locale.ROOT, "%.2f", found.pitchUm())
            + " um per px; affine map that most of them agree on.",
        tried);
  }

  private static boolean dieSizeDiffers(ScaledDie a, ScaledDie b, Registrar.Found found) {
    if (!a.die().edgeFound() || !b.die().edgeFound()) {
      return false;
    }
    PlaneTransform back = found.aToB().inverse();
    double w = Math.abs(back.a()) * b.widthUm() + Math.abs(back.b()) * b.heightUm();
    double h = Math.abs(back.d()) * b.widthUm() + Math.abs(back.e()) * b.heightUm();
    return Math.max(Math.abs(w - a.widthUm()), Math.abs(h - a.heightUm())) > 25;
  }

  private static List<Notice> notices(
      ComparisonSide a, ComparisonSide b, Measured ratio, boolean conflict, boolean grown) {
    List<Notice> out = new ArrayList<>();
    if (a.survey().photo().sha256().equals(b.survey().photo().sha256())) {
      out.add(
          new Notice(
              "same-photo",
              "Both sides are the same photograph (equal SHA-256), so nothing can differ.",
              "Name the photographs of two revisions."));
    }
    boolean scaledA = a.survey().scale().calibration().isPresent();
    boolean scaledB = b.survey().scale().calibration().isPresent();
    if (!scaledA || !scaledB) {
      String which =
          !scaledA && !scaledB
              ? "Neither photograph has a scale"
              : (scaledA ? b : a).photo().info().fileName() + " has no scale";
      out.add(
          SevereNotice.NO_SCALE.says(
              which + ", so all lengths are in px of the first photograph.",
              "State the pixel pitch of both photographs."));
    }
    if (conflict) {
      out.add(
          new Notice(
              "scale-conflict",
              String.format(
                  Locale.ROOT,
                  "The layout is %.2f %% %s in the second photograph than in the first by the two"
                      + " scales, more than their uncertainties explain; lengths are those of the"
                      + " first.",
                  100 * Math.abs(ratio.value() - 1),
                  ratio.value() > 1 ? "larger" : "smaller"),
              "Calibrate both photographs again, for example on a stage micrometer."));
    }
    if (grown) {
      out.add(
          new Notice(
              "die-size-differs",
              "The two dies differ in size, so the pad ring and the seal ring were rearranged;"
                  + " what moved with them is not listed as a change.",
              "See the die size under the totals."));
    }
    return out;
  }
}
