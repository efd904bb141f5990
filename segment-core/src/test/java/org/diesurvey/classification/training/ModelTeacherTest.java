package org.diesurvey.classification.training;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.concurrent.ForkJoinPool;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.Ensemble;
import org.diesurvey.classification.model.NetworkStage;
import org.diesurvey.classification.model.Stage;
import org.diesurvey.classification.model.TaughtPart;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.model.TileModel;
import org.diesurvey.classification.model.TinyModels;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class ModelTeacherTest {
  private static final List<DieSide> ALL = List.of(DieSide.values());

  private static TileClassifier base;
  private static List<TaughtTiles> rehearsal;
  private static List<TaughtTiles> check;

  @BeforeAll
  static void train() {
    TrainingSet own = new TrainingSet(6);
    for (int die = 0; die < 20; die++) {
      own.add(TinyModels.die(die).vectors()::of, TinyModels.classes(), die);
    }
    TileClassifier first = ModelTrainer.train(own, "tiny", new TreeMap<>()).classifier();
    TrainingSet around = new TrainingSet(6);
    for (int die = 20; die < 40; die++) {
      around.add(first.surroundings(TinyModels.die(die), ALL), TinyModels.classes(), die);
    }
    base = ModelTrainer.trainSecond(first, first, around).classifier();
    rehearsal = IntStream.range(50, 56).mapToObj(ModelTeacherTest::old).toList();
    check = IntStream.range(60, 63).mapToObj(ModelTeacherTest::old).toList();
  }

  private static TaughtTiles old(int seed) {
    return TaughtTiles.ofDie(TinyModels.die(seed), ALL, TinyModels.classes());
  }

  /**
   * The strips of {@link TinyModels#die} under other optics: dark stripes, blurred away in part.
   */
  private static FeatureTable otherOptics(long seed) {
    return FeatureTable.extract(
        DrawnSource.noisy(
                96,
                96,
                0.03,
                seed,
                (x, y) -> {
                  int strip = (int) (x / 16);
                  double place = strip % 2 == 0 ? x + y : y;
                  return 0.6
                      - 0.02 * (strip + 1) * (1 + Math.sin(2 * Math.PI * place / (3 + strip)));
                })
            .wholeAsDie(false, 1),
        new TileGrid(8, 1, 96, 96));
  }

  /** Each strip is two outlines, its upper and its lower half. */
  private static TaughtTiles taught(long seed, boolean contradictory) {
    int[] classes = TinyModels.classes();
    int[] regions = new int[classes.length];
    for (int t = 0; t < classes.length; t++) {
      boolean lower = t / 12 >= 6;
      regions[t] = 2 * classes[t] + (lower ? 1 : 0);
      if (contradictory && lower) {
        classes[t] = (classes[t] + 1) % SurfaceClass.COUNT;
      }
    }
    return new TaughtTiles(otherOptics(seed), ALL, classes, regions);
  }

  private static ModelTeacher.Taught teach(TaughtTiles tiles) {
    TreeMap<String, String> facts = new TreeMap<>();
    facts.put("taught_001_photo_sha256", "ab");
    return new ModelTeacher(base, List.of(tiles), rehearsal, check).teach("lab", facts);
  }

  @Test
  void teachingWithoutRehearsalOrCheck_isRefused() {
    List<TaughtTiles> none = List.of();
    assertThrows(IllegalArgumentException.class, () -> new ModelTeacher(base, none, none, check));
    assertThrows(
        IllegalArgumentException.class, () -> new ModelTeacher(base, none, rehearsal, none));
    assertThrows(
        IllegalArgumentException.class, () -> new ModelTeacher(base, none, rehearsal, rehearsal));
  }

  @Test
  void otherOptics_areLearnt_andTheOldOnesKept() {
    ModelTeacher.Taught t = teach(taught(7, false));
    assertTrue(t.model().isPresent(), t.toString());
    assertTrue(t.left().before() < 0.9, "nothing to learn: " + t);
    assertTrue(t.left().after() > t.left().before(), t.toString());
    assertTrue(t.drawn().after() >= t.drawn().before() - ModelTeacher.MOST_LOST, t.toString());
    TileClassifier model = t.model().get();
    // A photograph that was not taught, under the same optics.
    TaughtTiles next = taught(8, false);
    assertTrue(accuracy(model, next) > accuracy(base, next));
    TileClassifier read = TileClassifier.of(model.bytes(), "lab");
    assertEquals("lab", read.name());
    assertEquals(base.sha256(), read.model().training().get("taught_base_sha256"));
    assertEquals("ab", read.model().training().get("taught_001_photo_sha256"));
    assertEquals("12", read.model().training().get("taught_outlines"));
  }

  @Test
  void taughtPartCountsInFull_forTheTaughtPhotograph_andLittleForOthers() {
    TileModel model = teach(taught(7, false)).model().orElseThrow().model();
    float[] same = base.mean(otherOptics(7));
    float[] other = same.clone();
    for (int f = 0; f < other.length; f++) {
      other[f] += 100;
    }
    TaughtPart part = model.taught().orElseThrow();
    assertEquals(1, part.share(model.familiar(), same), 1e-6);
    assertEquals(0.3, part.share(model.familiar(), other), 1e-12);
    float[] old = ((NetworkStage) network(model.first())).outerBias();
    float[] goal = ((NetworkStage) network(part.first())).outerBias();
    float[] far = ((NetworkStage) network(model.forPicture(other).first())).outerBias();
    for (int k = 0; k < old.length; k++) {
      assertEquals(old[k] + 0.3 * (goal[k] - old[k]), far[k], 1e-6);
    }
    assertEquals(base.model().first().stages().size(), model.first().stages().size());
    assertArrayEquals(
        ((NetworkStage) network(base.model().first())).outerBias(), old, "the old weights stay");
  }

  private static Stage network(Ensemble e) {
    return e.stages().stream().filter(s -> s instanceof NetworkStage).findFirst().orElseThrow();
  }

  private static double accuracy(TileClassifier model, TaughtTiles die) {
    TileScore score = new TileScore();
    score.add(die, model.classify(die.features(), die.sides()), t -> true);
    return score.balancedAccuracy();
  }

  @Test
  void sameInput_givesTheSameBytes_withAnyNumberOfThreads() throws Exception {
    byte[] one = bytes(1);
    assertArrayEquals(one, bytes(3));
  }

  private static byte[] bytes(int threads) throws Exception {
    ForkJoinPool pool = new ForkJoinPool(threads);
    try {
      return pool.submit(() -> teach(taught(7, false)).model().orElseThrow().bytes()).get();
    } finally {
      pool.shutdown();
    }
  }

  @Test
  void sameTextureUnderTwoClasses_isRefused() {
    ModelTeacher.Taught t = teach(taught(7, true));
    assertTrue(t.model().isEmpty(), t.toString());
    assertTrue(
        t.refusal().orElseThrow().contains("contradict")
            || t.refusal().get().contains("check their classes"),
        t.refusal().get());
  }

  @Test
  void tooFewOutlines_areRefused_andSayWhatIsNeeded() {
    TaughtTiles all = taught(7, false);
    int[] classes = all.labels();
    int[] regions = new int[classes.length];
    for (int t = 0; t < classes.length; t++) {
      regions[t] = classes[t];
      if (classes[t] > 1) {
        classes[t] = TaughtTiles.NO_SAMPLE;
      }
    }
    ModelTeacher.Taught two = teach(new TaughtTiles(all.features(), ALL, classes, regions));
    assertTrue(two.refusal().orElseThrow().contains("at least 3 of 2 classes"), two.toString());
    assertEquals(2, two.regions());
    Arrays.fill(classes, TaughtTiles.NO_SAMPLE);
    ModelTeacher.Taught none = teach(new TaughtTiles(all.features(), ALL, classes, regions));
    assertEquals(0, none.regions());
    assertTrue(none.model().isEmpty());
  }

  @Test
  void onlyOutlineOfAClass_isCutIntoPartsThatAreFarApart() {
    FeatureTable wide =
        FeatureTable.extract(
            DrawnSource.noisy(800, 40, 0.02, 3, (x, y) -> 0.5).wholeAsDie(false, 1),
            new TileGrid(8, 1, 800, 40));
    int[] classes = new int[500];
    int[] regions = new int[500];
    for (int t = 0; t < 500; t++) {
      classes[t] = t % 100 < 90 ? 2 : 1;
      regions[t] = t % 100 < 90 ? 0 : 1;
    }
    List<TaughtTiles> photos = List.of(new TaughtTiles(wide, List.of(), classes, regions));
    List<TaughtPlace> parts = TaughtPlace.parts(TaughtPlace.of(photos), photos, 3);
    // 90 columns in three parts, 7 columns of guard on each side of both cuts; the other outline is
    // 10 columns wide and so never left out.
    assertEquals(
        List.of(23 * 5, 16 * 5, 23 * 5, 10 * 5),
        parts.stream().map(p -> p.tiles().size()).toList());
    assertEquals(List.of(0, 1, 2, -1), parts.stream().map(TaughtPlace::fold).toList());
  }

  @Test
  void scores_countMemoryAsOneClass_andWeighClassesAlike() {
    // 12 tiles of bit cells all called bit cells or periphery, 12 of logic: none right.
    int[] classes = TinyModels.classes();
    TaughtTiles die = TaughtTiles.ofDie(TinyModels.die(1), ALL, classes);
    float[] values = new float[classes.length * SurfaceClass.COUNT];
    for (int t = 0; t < classes.length; t++) {
      values[t * SurfaceClass.COUNT + SurfaceClass.PERIPHERY.ordinal()] = 1;
    }
    TileScore score = new TileScore();
    score.add(
        die,
        new TileProbabilities(die.features().grid(), values, new float[classes.length]),
        t -> classes[t] == 0 || classes[t] == 2);
    assertEquals(0.5, score.balancedAccuracy(), 1e-12);
    // Memory: 24 found rightly of 24, 24 tiles of logic too many: IoU 1/2; logic 0.
    assertEquals(0.25, score.meanIou(), 1e-12);
  }
}
