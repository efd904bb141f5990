package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.IntFunction;
import org.diesurvey.Supported;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.Ensemble;
import org.diesurvey.classification.model.TaughtPart;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.model.TileModel;

/**
 * Adapts a model to a lab's own photographs from outlines that a person drew or corrected.
 *
 * <p>The networks of both classifiers go on training from their present weights, for a few passes
 * over taught tiles mixed with what holds their old answers ({@link FurtherTraining}); linear
 * members, centre, scale, temperature and the border of strangeness stay as they are. Where that
 * costs the check dies more than {@link #MOST_LOST}, the weights are taken only part of the way
 * from the old ones to the new ones (averaging of weights after further training: Wortsman et al.
 * 2022, from memory). Repeatable: the same tiles give the same model.
 */
@Supported
public final class ModelTeacher {
  /** Fewest outlines with enough tiles inside. */
  public static final int FEWEST_REGIONS = 3;

  /** Fewest dies to rehearse on: with fewer the model forgets what it knew. */
  public static final int FEWEST_REHEARSED = 6;

  /** Fewest other dies to check the loss on. */
  public static final int FEWEST_CHECKED = 3;

  /** Mean IoU that the check dies may lose. */
  public static final double MOST_LOST = 0.01;

  private static final int FOLDS = 3;
  private static final int PER_REGION = 150;
  private static final int PER_OLD_DIE = 30;

  private static final double[] SHARES = {1, 0.6, 0.3, 0.15};

  /** Tiles that are right after they were taught: below this the outlines contradict each other. */
  private static final double LEAST_LEARNT = 0.8;

  private final TileClassifier start;
  private final TileClassifier base;
  private final List<TaughtTiles> taught;
  private final List<TaughtTiles> rehearsal;
  private final List<TaughtTiles> check;

  /**
   * @param base the model to adapt
   * @param taught tiles of the outlined photographs
   * @param rehearsal drawn dies, so that the model keeps what it knows
   * @param check other drawn dies, on which the loss is measured
   * @throws IllegalArgumentException if there are fewer than {@link #FEWEST_REHEARSED} dies to
   *     rehearse on or {@link #FEWEST_CHECKED} to check on, or one die is in both lists: what
   *     teaching costs would not be noticed
   */
  public ModelTeacher(
      TileClassifier base,
      List<TaughtTiles> taught,
      List<TaughtTiles> rehearsal,
      List<TaughtTiles> check) {
    if (rehearsal.size() < FEWEST_REHEARSED || check.size() < FEWEST_CHECKED) {
      throw new IllegalArgumentException(
          "teaching needs at least "
              + FEWEST_REHEARSED
              + " dies to rehearse on and "
              + FEWEST_CHECKED
              + " to check on, was given "
              + rehearsal.size()
              + " and "
              + check.size());
    }
    if (rehearsal.stream().anyMatch(r -> check.stream().anyMatch(c -> c == r))) {
      throw new IllegalArgumentException("a die that is rehearsed cannot check what is kept");
    }
    this.start = base;
    // Teaching further goes on from all that was taught before.
    this.base = TileClassifier.of(base.model().towardsTaught(1));
    this.taught = List.copyOf(taught);
    this.rehearsal = List.copyOf(rehearsal);
    this.check = List.copyOf(check);
  }

  /**
   * What teaching gave.
   *
   * @param model the taught model; empty where it must not be used
   * @param refusal why not, with what to do; empty where there is a model
   * @param share of the way from the old weights to the new ones, 0 to 1
   * @param regions outlines used
   * @param tiles inside them
   * @param left accuracy on outlines left out of teaching, classes weighted alike
   * @param whole the same on all outlines
   * @param drawn mean IoU of tiles on the check dies
   */
  public record Taught(
      Optional<TileClassifier> model,
      Optional<String> refusal,
      double share,
      int regions,
      int tiles,
      BeforeAfter left,
      BeforeAfter whole,
      BeforeAfter drawn) {
    private Taught written(String name, SortedMap<String, String> record) {
      return new Taught(
          model.map(m -> TileClassifier.of(m.model().named(name, record))),
          refusal,
          share,
          regions,
          tiles,
          left,
          whole,
          drawn);
    }
  }

  /**
   * A score of the model before and after.
   *
   * @param before 0 to 1
   * @param after 0 to 1
   */
  public record BeforeAfter(double before, double after) {
    static final BeforeAfter NONE = new BeforeAfter(0, 0);
  }

  /**
   * Teaches; runs on the calling thread's fork-join pool.
   *
   * @param name of the new model
   * @param facts how it was taught, added to the model's record
   */
  public Taught teach(String name, SortedMap<String, String> facts) {
    List<TaughtPlace> places = TaughtPlace.of(taught);
    int tiles = places.stream().mapToInt(p -> p.tiles().size()).sum();
    Optional<String> few = tooFew(places);
    if (few.isPresent()) {
      return refused(few.get(), places.size(), tiles);
    }
    double drawnBefore = TileScore.meanIou(start, check);
    BeforeAfter drawn = new BeforeAfter(drawnBefore, drawnBefore);
    TileModel goal = further(places);
    for (double share : SHARES) {
      TileClassifier model = TileClassifier.of(blend(goal, share));
      drawn = new BeforeAfter(drawnBefore, TileScore.meanIou(model, check));
      if (drawn.after() >= drawnBefore - MOST_LOST) {
        BeforeAfter left = crossValidated(folds(places), share);
        BeforeAfter whole =
            new BeforeAfter(
                score(start, places).balancedAccuracy(), score(model, places).balancedAccuracy());
        Optional<String> refusal =
            refusal(
                left, whole, score(TileClassifier.of(blend(goal, 1)), places).balancedAccuracy());
        Taught result =
            new Taught(
                refusal.isPresent() ? Optional.empty() : Optional.of(model),
                refusal,
                share,
                places.size(),
                tiles,
                left,
                whole,
                drawn);
        return result.written(name, record(facts, result));
      }
    }
    return new Taught(
        Optional.empty(),
        Optional.of(
            "teaching these outlines would cost the drawn check dies more than 1 point of mean"
                + " IoU: check their classes, or teach more of them"),
        0,
        places.size(),
        tiles,
        BeforeAfter.NONE,
        BeforeAfter.NONE,
        drawn);
  }

  private SortedMap<String, String> record(SortedMap<String, String> facts, Taught t) {
    SortedMap<String, String> record = new TreeMap<>(start.model().training());
    record.putAll(facts);
    record.put("taught_base_name", start.name());
    record.put("taught_base_sha256", start.sha256());
    record.put("taught_outlines", Integer.toString(t.regions()));
    record.put("taught_tiles", Integer.toString(t.tiles()));
    record.put("taught_share_of_way", Double.toString(t.share()));
    put(record, "taught_left_out_accuracy", t.left());
    put(record, "taught_outlines_accuracy", t.whole());
    put(record, "taught_drawn_mean_iou", t.drawn());
    return record;
  }

  private static void put(SortedMap<String, String> to, String key, BeforeAfter v) {
    to.put(key + "_before", Double.toString(Math.rint(v.before() * 1e4) / 1e4));
    to.put(key + "_after", Double.toString(Math.rint(v.after() * 1e4) / 1e4));
  }

  private static Taught refused(String why, int regions, int tiles) {
    return new Taught(
        Optional.empty(),
        Optional.of(why),
        0,
        regions,
        tiles,
        BeforeAfter.NONE,
        BeforeAfter.NONE,
        BeforeAfter.NONE);
  }

  /** Why nothing can be learnt from these outlines and what is needed; empty if it can. */
  public static Optional<String> refusal(List<TaughtTiles> taught) {
    return tooFew(TaughtPlace.of(taught));
  }

  private static Optional<String> tooFew(List<TaughtPlace> places) {
    long classes =
        places.stream().map(p -> SurfaceClass.values()[p.label()].dieClass()).distinct().count();
    if (places.size() >= FEWEST_REGIONS && classes >= 2) {
      return Optional.empty();
    }
    return Optional.of(
        "too few outlines to learn from: "
            + places.size()
            + " of "
            + classes
            + (classes == 1 ? " class" : " classes")
            + " hold at least "
            + TaughtPlace.FEWEST_TILES
            + " whole tiles; draw at least "
            + FEWEST_REGIONS
            + " of 2 classes or more, the larger the better");
  }

  private static Optional<String> refusal(BeforeAfter left, BeforeAfter whole, double learnt) {
    if (left.before() == 0 && left.after() == 0) {
      return Optional.of(
          "no outline is large enough to be left out for a check: draw a second outline of a class,"
              + " or larger ones");
    }
    if (learnt < LEAST_LEARNT) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "the outlines contradict each other: taught with all of them, the model still names"
                  + " only %.1f %% of their tiles as stated; check that like textures have like"
                  + " classes",
              100 * learnt));
    }
    if (whole.after() < whole.before()) {
      return Optional.of(
          "the taught model would be worse than before on the taught outlines themselves: check"
              + " that like textures have like classes");
    }
    return Optional.empty();
  }

  /**
   * A part of a cross-validation.
   *
   * @param out outlines left out
   * @param goal taught without them, the whole way
   */
  private record Fold(List<TaughtPlace> out, TileModel goal) {}

  private List<Fold> folds(List<TaughtPlace> places) {
    List<TaughtPlace> parts = TaughtPlace.parts(places, taught, FOLDS);
    List<Fold> folds = new ArrayList<>();
    for (int f = 0; f < FOLDS; f++) {
      int fold = f;
      List<TaughtPlace> out = parts.stream().filter(p -> p.fold() == fold).toList();
      List<TaughtPlace> kept = parts.stream().filter(p -> p.fold() != fold).toList();
      if (!out.isEmpty() && !kept.isEmpty()) {
        folds.add(new Fold(out, further(kept)));
      }
    }
    return folds;
  }

  /** Every part is judged by a model that was taught without it and the others of its fold. */
  private BeforeAfter crossValidated(List<Fold> folds, double share) {
    TileScore before = new TileScore();
    TileScore after = new TileScore();
    for (Fold f : folds) {
      count(before, start, f.out());
      count(after, TileClassifier.of(blend(f.goal(), share)), f.out());
    }
    return new BeforeAfter(before.balancedAccuracy(), after.balancedAccuracy());
  }

  private TileScore score(TileClassifier model, List<TaughtPlace> places) {
    TileScore score = new TileScore();
    count(score, model, places);
    return score;
  }

  private void count(TileScore to, TileClassifier model, List<TaughtPlace> places) {
    for (int p = 0; p < taught.size(); p++) {
      TaughtTiles photo = taught.get(p);
      int number = p;
      boolean[] wanted = new boolean[photo.labels().length];
      places.stream()
          .filter(o -> o.photo() == number)
          .forEach(o -> o.tiles().forEach(t -> wanted[t] = true));
      to.add(photo, model.classify(photo.features(), photo.sides()), t -> wanted[t]);
    }
  }

  /** Both classifiers, trained further on some outlines and on the rehearsal. */
  private TileModel further(List<TaughtPlace> places) {
    TileModel model = base.model();
    TileModel first =
        model.withFirst(further(model.first(), places, die -> die.features().vectors()::of));
    if (model.second().isEmpty()) {
      return first;
    }
    TileClassifier looking = TileClassifier.of(first);
    return first.withSecond(
        further(
            model.second().get(), places, die -> looking.surroundings(die.features(), die.sides())),
        first.training());
  }

  private Ensemble further(
      Ensemble old, List<TaughtPlace> places, Function<TaughtTiles, IntFunction<float[]>> source) {
    TrainingSet known = new TrainingSet(PER_OLD_DIE);
    for (int d = 0; d < rehearsal.size(); d++) {
      known.add(source.apply(rehearsal.get(d)), rehearsal.get(d).labels(), d);
    }
    TrainingSet lesson = new TrainingSet(PER_REGION);
    for (int p = 0; p < taught.size(); p++) {
      IntFunction<float[]> row = source.apply(taught.get(p));
      for (TaughtPlace o : places) {
        if (o.photo() == p) {
          lesson.add(row, o.labels(taught.get(p)), rehearsal.size() + o.region());
        }
      }
    }
    return FurtherTraining.of(old, known, lesson);
  }

  /**
   * The base with what teaching adds: weights part of the way from the base to the goal, and what
   * the taught photographs look like.
   */
  private TileModel blend(TileModel goal, double share) {
    List<float[]> centres = new ArrayList<>();
    start.model().taught().ifPresent(t -> centres.addAll(t.centres()));
    taught.forEach(t -> centres.add(base.mean(t.features())));
    Ensemble first = Ensemble.between(base.model().first(), goal.first(), share);
    Optional<Ensemble> second =
        base.model().second().map(e -> Ensemble.between(e, goal.second().orElseThrow(), share));
    TaughtPart part = new TaughtPart(centres, first, second);
    return start.model().withTaught(part);
  }
}
