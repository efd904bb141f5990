package org.diesurvey.classification.training;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.model.TinyModels;
import org.diesurvey.classification.training.TrainingSet.Which;
import org.diesurvey.features.FeatureTable;
import org.junit.jupiter.api.Test;

class ModelTrainerTest {
  private static TrainingSet set(int perClassAndDie, int dies) {
    TrainingSet set = new TrainingSet(perClassAndDie);
    for (int die = 0; die < dies; die++) {
      set.add(TinyModels.die(die).vectors()::of, TinyModels.classes(), die);
    }
    return set;
  }

  @Test
  void everyClassOfEveryDie_countsAlike_bareGroundTwice() {
    TrainingSet set = set(7, 10);
    assertEquals(10 * 7 * 7, set.size());
    int[] labels = set.labels(Which.ALL);
    for (int k = 0; k < SurfaceClass.COUNT; k++) {
      int c = k;
      int wanted = c == SurfaceClass.BARE.ordinal() ? 140 : 70;
      assertEquals(wanted, Arrays.stream(labels).filter(l -> l == c).count());
    }
    assertEquals(49, set.rows(Which.LEFT_OUT).length);
    assertEquals(9 * 49, set.rows(Which.FOR_FITTING).length);
  }

  @Test
  void aDieThatTheCallerLeavesOut_isNotFitted() {
    TrainingSet set = new TrainingSet(3);
    for (int die = 0; die < 4; die++) {
      set.add(TinyModels.die(die).vectors()::of, TinyModels.classes(), t -> false, die, die == 2);
    }
    TrainingSet alone = new TrainingSet(3);
    alone.add(TinyModels.die(2).vectors()::of, TinyModels.classes(), 2);
    assertTrue(Arrays.deepEquals(alone.rows(Which.ALL), set.rows(Which.LEFT_OUT)));
    assertEquals(3 * alone.size(), set.rows(Which.FOR_FITTING).length);
  }

  /** What the model itself has learnt from dies left out must not show in what is said of them. */
  @Test
  void diesLeftOut_areJudgedByTheModelThatHasNotSeenThem() {
    TrainingSet set = new TrainingSet(12);
    int[] wrong = Arrays.stream(TinyModels.classes()).map(c -> c < 0 ? c : (c + 1) % 6).toArray();
    for (int die = 0; die < 40; die++) {
      boolean out = die % 2 == 1;
      int[] classes = out ? wrong : TinyModels.classes();
      set.add(TinyModels.die(die).vectors()::of, classes, t -> false, die, out);
    }
    ModelTrainer.Trained trained = ModelTrainer.train(set, "left out", new TreeMap<>());
    assertTrue(trained.accuracyLeftOut() < 0.1, "accuracy " + trained.accuracyLeftOut());
  }

  /** Ground with a scratch or dust on it is rare and easily mistaken, plain ground is neither. */
  @Test
  void busyBareTiles_makeUpHalfOfTheSampleOfBareGround() {
    int bare = SurfaceClass.BARE.ordinal();
    int[] classes = new int[1000];
    Arrays.fill(classes, bare);
    TrainingSet set = new TrainingSet(30);
    set.add(t -> new float[] {t}, classes, t -> t < 40, 1, false);
    float[][] rows = set.rows(Which.ALL);
    assertEquals(60, rows.length);
    assertEquals(30, Arrays.stream(rows).filter(r -> r[0] < 40).count());
    assertEquals(60, Arrays.stream(rows).map(r -> r[0]).distinct().count());
    TrainingSet few = new TrainingSet(30);
    few.add(t -> new float[] {t}, classes, t -> t < 7, 1, false);
    assertEquals(60, few.size());
    assertEquals(
        7,
        Arrays.stream(few.rows(Which.ALL)).filter(r -> r[0] < 7).count(),
        "as many as there are");
    TrainingSet all = new TrainingSet(30);
    all.add(t -> new float[] {t}, classes, t -> true, 1, false);
    assertEquals(60, all.size(), "ground that is busy all over");
  }

  @Test
  void rareClass_givesAllItsTiles_onceEach() {
    TrainingSet set = new TrainingSet(50);
    FeatureTable die = TinyModels.die(1);
    int[] classes = new int[144];
    Arrays.fill(classes, -1);
    classes[17] = 2;
    classes[99] = 2;
    set.add(die.vectors()::of, classes, 3);
    assertEquals(2, set.size());
    float[][] rows = set.rows(Which.ALL);
    boolean straight =
        Arrays.equals(rows[0], die.vectors().of(17))
            && Arrays.equals(rows[1], die.vectors().of(99));
    boolean turned =
        Arrays.equals(rows[0], die.vectors().of(99))
            && Arrays.equals(rows[1], die.vectors().of(17));
    assertTrue(straight || turned);
  }

  @Test
  void sameDies_giveTheSameSample() {
    float[][] a = set(5, 3).rows(Which.ALL);
    float[][] b = set(5, 3).rows(Which.ALL);
    assertEquals(a.length, b.length);
    for (int i = 0; i < a.length; i++) {
      assertArrayEquals(a[i], b[i]);
    }
  }

  @Test
  void trainingTwice_givesTheSameBytes_andSeparatesWhatIsSeparable() {
    SortedMap<String, String> facts = new TreeMap<>();
    facts.put("dies", "20");
    ModelTrainer.Trained one = ModelTrainer.train(set(6, 20), "twice", facts);
    ModelTrainer.Trained two = ModelTrainer.train(set(6, 20), "twice", facts);
    assertArrayEquals(one.classifier().bytes(), two.classifier().bytes());
    assertArrayEquals(one.partial().bytes(), two.partial().bytes());
    assertTrue(one.accuracyLeftOut() > 0.8, "accuracy " + one.accuracyLeftOut());
    TileProbabilities p = one.classifier().classifyAlone(TinyModels.die(77));
    int right = 0;
    for (int t = 0; t < 144; t++) {
      right += p.best(t).ordinal() == TinyModels.classes()[t] ? 1 : 0;
    }
    assertTrue(right > 0.8 * 144, right + " of 144 tiles right");
  }

  /** Labels of the further dies that are all wrong must show in what is said of dies left out. */
  @Test
  void furtherDies_areJudgedByTheEarlyOne_andThenLearnt() {
    TrainingSet seen = set(6, 20);
    ModelTrainer.Trained early = ModelTrainer.train(seen, "early", new TreeMap<>());
    int[] wrong = Arrays.stream(TinyModels.classes()).map(c -> c < 0 ? c : (c + 1) % 6).toArray();
    TrainingSet fresh = new TrainingSet(12);
    for (int die = 20; die < 60; die++) {
      fresh.add(TinyModels.die(die).vectors()::of, wrong, die);
    }
    ModelTrainer.Trained all =
        ModelTrainer.trainFurther(early, seen, fresh, "all", new TreeMap<>());
    assertTrue(all.accuracyLeftOut() < 0.1, "accuracy " + all.accuracyLeftOut());
    int tiles = seen.size() + fresh.size();
    assertEquals(Integer.toString(tiles), all.classifier().model().training().get("tiles"));
    TileProbabilities p = all.classifier().classifyAlone(TinyModels.die(77));
    int asTaughtLast = 0;
    for (int t = 0; t < 144; t++) {
      asTaughtLast += p.best(t).ordinal() == wrong[t] ? 1 : 0;
    }
    assertTrue(asTaughtLast > 0.7 * 144, asTaughtLast + " of 144 tiles as most dies say");
  }

  @Test
  void secondLook_isTrainedOnWhatTheFirstSaw_andIsRepeatable() {
    TileClassifier first = ModelTrainer.train(set(6, 20), "two", new TreeMap<>()).classifier();
    ModelTrainer.Trained one = ModelTrainer.trainSecond(first, first, around(first));
    ModelTrainer.Trained two = ModelTrainer.trainSecond(first, first, around(first));
    assertArrayEquals(one.classifier().bytes(), two.classifier().bytes());
    assertTrue(one.accuracyLeftOut() > 0.8, "accuracy " + one.accuracyLeftOut());
    assertTrue(one.classifier().model().training().containsKey("second_accuracy_left_out"));
  }

  private static TrainingSet around(TileClassifier first) {
    TrainingSet set = new TrainingSet(6);
    for (int die = 20; die < 40; die++) {
      set.add(first.surroundings(TinyModels.die(die), List.of()), TinyModels.classes(), die);
    }
    return set;
  }
}
