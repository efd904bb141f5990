package org.diesurvey.classification;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.IntStream;

/**
 * Adapts a model to a lab's own photographs from outlines that a person drew or corrected.
 *
 * <p>The networks of both classifiers go on training from their present weights, for a few passes
 * over taught tiles mixed with tiles of drawn dies, so that what was known is rehearsed; linear
 * members, centre, scale, temperature and the border of strangeness stay as they are. The weights
 * are then taken part of the way from the old ones to the new ones (averaging of weights after
 * further training: Wortsman et al. 2022, from memory): the largest share that costs the check dies
 * at most {@link #MOST_LOST}. Repeatable: the same tiles give the same model.
 */
public final class ModelTeacher {
  /** Fewest outlines with enough tiles inside. */
  public static final int FEWEST_REGIONS = 3;

  /** Mean IoU that the check dies may lose. */
  public static final double MOST_LOST = 0.01;

  private static final int FOLDS = 3;
  private static final int PER_REGION = 150;
  private static final int PER_OLD_DIE = 30;

  /**
   * Never the whole way: measured on one die of another technology, that cost a quarter of its mean
   * IoU, 0.6 about 1 point, and the drawn dies do not show it.
   */
  private static final double[] SHARES = {0.6, 0.3, 0.15};

  private static final NetworkStage.Plan PLAN = new NetworkStage.Plan(0, 6, 64, 5e-4, 0, 4711);

  private final TileClassifier base;
  private final List<TaughtTiles> taught;
  private final List<TaughtTiles> rehearsal;
  private final List<TaughtTiles> check;

  /**
   * @param base the model to adapt
   * @param taught tiles of the outlined photographs
   * @param rehearsal drawn dies, so that the model keeps what it knows
   * @param check other drawn dies, on which the loss is measured
   */
  public ModelTeacher(
      TileClassifier base,
      List<TaughtTiles> taught,
      List<TaughtTiles> rehearsal,
      List<TaughtTiles> check) {
    this.base = base;
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
      BeforeAfter drawn) {}

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
    double drawnBefore = TileScore.meanIou(base, check);
    TileModel goal = further(places);
    double share = 0;
    double drawnAfter = drawnBefore;
    for (double s : SHARES) {
      double iou = TileScore.meanIou(TileClassifier.of(blend(goal, s)), check);
      if (iou >= drawnBefore - MOST_LOST) {
        share = s;
        drawnAfter = iou;
        break;
      }
    }
    BeforeAfter drawn = new BeforeAfter(drawnBefore, drawnAfter);
    if (share == 0) {
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
    BeforeAfter left = crossValidated(places, share);
    TileModel taughtModel = blend(goal, share);
    BeforeAfter whole =
        new BeforeAfter(
            score(base, places).balancedAccuracy(),
            score(TileClassifier.of(taughtModel), places).balancedAccuracy());
    Optional<String> refusal = worse(left, whole);
    SortedMap<String, String> record = new TreeMap<>(base.model().training());
    record.putAll(facts);
    record.put("taught_base_name", base.name());
    record.put("taught_base_sha256", base.sha256());
    record.put("taught_outlines", Integer.toString(places.size()));
    record.put("taught_tiles", Integer.toString(tiles));
    record.put("taught_share_of_way", Double.toString(share));
    put(record, "taught_left_out_accuracy", left);
    put(record, "taught_outlines_accuracy", whole);
    put(record, "taught_drawn_mean_iou", drawn);
    return new Taught(
        refusal.isPresent()
            ? Optional.empty()
            : Optional.of(TileClassifier.of(taughtModel.named(name, record))),
        refusal,
        share,
        places.size(),
        tiles,
        left,
        whole,
        drawn);
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

  private static Optional<String> worse(BeforeAfter left, BeforeAfter whole) {
    if (left.before() == 0 && left.after() == 0) {
      return Optional.of(
          "no outline is large enough to be left out for a check: draw a second outline of a class,"
              + " or larger ones");
    }
    if (left.after() < left.before()) {
      return Optional.of(
          String.format(
              java.util.Locale.ROOT,
              "the outlines contradict each other: taught without some of them, the model names"
                  + " those worse than before (%.1f %% of tiles right, before %.1f %%); check that"
                  + " like textures have like classes, or teach more outlines",
              100 * left.after(),
              100 * left.before()));
    }
    if (whole.after() < whole.before()) {
      return Optional.of(
          "the taught model would be worse than before on the taught outlines themselves: check"
              + " that like textures have like classes");
    }
    return Optional.empty();
  }

  /** Every part is judged by a model that was taught without it and the others of its fold. */
  private BeforeAfter crossValidated(List<TaughtPlace> places, double share) {
    TileScore before = new TileScore();
    TileScore after = new TileScore();
    List<TaughtPlace> parts = TaughtPlace.parts(places, taught, FOLDS);
    for (int f = 0; f < FOLDS; f++) {
      int fold = f;
      List<TaughtPlace> out = parts.stream().filter(p -> p.fold() == fold).toList();
      List<TaughtPlace> kept = parts.stream().filter(p -> p.fold() != fold).toList();
      if (!out.isEmpty() && !kept.isEmpty()) {
        count(before, base, out);
        count(after, TileClassifier.of(blend(further(kept), share)), out);
      }
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
    TrainingSet own = rows(places, die -> die.features()::row);
    TileModel model = base.model();
    TileModel first = model.withFirst(further(model.first(), own));
    if (model.second().isEmpty()) {
      return first;
    }
    TileClassifier looking = TileClassifier.of(first);
    TrainingSet around = rows(places, die -> looking.surroundings(die.features(), die.sides()));
    return first.withSecond(further(model.second().get(), around), first.training());
  }

  private TrainingSet rows(
      List<TaughtPlace> places, Function<TaughtTiles, IntFunction<float[]>> source) {
    TrainingSet set = new TrainingSet(PER_OLD_DIE);
    for (int d = 0; d < rehearsal.size(); d++) {
      set.add(source.apply(rehearsal.get(d)), rehearsal.get(d).labels(), d);
    }
    for (int p = 0; p < taught.size(); p++) {
      IntFunction<float[]> row = source.apply(taught.get(p));
      for (TaughtPlace o : places) {
        if (o.photo() == p) {
          set.add(row, o.labels(taught.get(p)), rehearsal.size() + o.region(), PER_REGION);
        }
      }
    }
    return set;
  }

  private static Ensemble further(Ensemble old, TrainingSet set) {
    float[][] rows = set.rows(TrainingSet.Which.ALL);
    int[] labels = set.labels(TrainingSet.Which.ALL);
    float[][] z = new float[rows.length][old.features()];
    for (int i = 0; i < z.length; i++) {
      old.standardiser().apply(rows[i], z[i]);
    }
    List<Stage> stages =
        IntStream.range(0, old.stages().size())
            .parallel()
            .mapToObj(
                i ->
                    old.stages().get(i) instanceof NetworkStage n
                        ? NetworkStage.further(n, z, labels, PLAN)
                        : old.stages().get(i))
            .toList();
    return new Ensemble(old.standardiser(), stages, old.temperature());
  }

  /** The model part of the way from the base to the goal. */
  private TileModel blend(TileModel goal, double share) {
    TileModel model = base.model();
    BiFunction<Ensemble, Ensemble, Ensemble> mix =
        (a, b) -> {
          List<Stage> stages = new ArrayList<>();
          for (int i = 0; i < a.stages().size(); i++) {
            stages.add(
                a.stages().get(i) instanceof NetworkStage n
                        && b.stages().get(i) instanceof NetworkStage m
                    ? NetworkStage.between(n, m, (float) share)
                    : a.stages().get(i));
          }
          return new Ensemble(a.standardiser(), stages, a.temperature());
        };
    TileModel first = model.withFirst(mix.apply(model.first(), goal.first()));
    return model.second().isEmpty()
        ? first
        : first.withSecond(
            mix.apply(model.second().get(), goal.second().orElseThrow()), model.training());
  }
}
