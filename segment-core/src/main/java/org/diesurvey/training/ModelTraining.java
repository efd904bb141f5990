package org.diesurvey.training;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import java.util.function.ObjIntConsumer;
import java.util.stream.Stream;
import org.diesurvey.classification.model.RegionConfidence;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.training.BlockSet;
import org.diesurvey.classification.training.BlockTrainer;
import org.diesurvey.classification.training.ModelTrainer;
import org.diesurvey.classification.training.TrainingSet;

/**
 * The order of a training: an early look at tiles from one half of the dies, what it makes of the
 * surroundings in the other half, the final look from both, the look at whole blocks, and the
 * confidence of regions from dies that none of these has seen. The same dies and plan give the same
 * classifier.
 */
public final class ModelTraining {
  private final IntFunction<LabelledTiles> dies;
  private final Plan plan;
  private final Listener listener;

  private ModelTraining(IntFunction<LabelledTiles> dies, Plan plan, Listener listener) {
    this.dies = dies;
    this.plan = plan;
    this.listener = listener;
  }

  /**
   * What is trained on.
   *
   * @param name of the model
   * @param facts how the dies were made, for the model's record
   * @param early numbers of the dies of the early look, in their order
   * @param late those of the second look
   * @param tiles most tiles of one class from one die, at least 1
   * @param without dies of technologies that begin so are left out; empty for none
   * @param judgeOn confidence is fitted on dies of technologies that begin so, and on every tenth
   */
  public record Plan(
      String name,
      SortedMap<String, String> facts,
      List<Integer> early,
      List<Integer> late,
      int tiles,
      Optional<String> without,
      String judgeOn) {
    /** Copies the collections. */
    public Plan {
      facts = new TreeMap<>(facts);
      early = List.copyOf(early);
      late = List.copyOf(late);
    }
  }

  /** Told before and after each die is read. */
  public interface Listener {
    /** A part of the training begins. */
    void part(String name, int dies);

    /** A die was read for it. */
    void read(int die, String part);
  }

  /**
   * A trained classifier and how each of its looks did on dies left out.
   *
   * @param classifier trained on all dies
   * @param first look by a tile's own features
   * @param firstTiles tiles that it learnt from
   * @param second look by the surroundings
   * @param secondTiles tiles that it learnt from
   * @param blocksRight share of blocks left out whose class was named rightly, 0 to 1
   * @param blocks that the look at blocks learnt from
   */
  public record Result(
      TileClassifier classifier,
      ModelTrainer.Trained first,
      int firstTiles,
      ModelTrainer.Trained second,
      int secondTiles,
      double blocksRight,
      int blocks) {}

  /**
   * Trains; runs on the calling thread's fork-join pool.
   *
   * @param dies gives a die by its number, more than once, from any thread
   */
  public static Result of(IntFunction<LabelledTiles> dies, Plan plan, Listener listener) {
    return new ModelTraining(dies, plan, listener).train();
  }

  private Result train() {
    TrainingSet seen = new TrainingSet(plan.tiles());
    each(
        plan.early(),
        "first look",
        (die, number) ->
            addOwn(seen, die, number, die.busy(LabelledTiles.PURE), judged(die, number)));
    ModelTrainer.Trained half = ModelTrainer.train(seen, plan.name(), plan.facts());
    TrainingSet fresh = new TrainingSet(plan.tiles());
    TrainingSet around = new TrainingSet(plan.tiles());
    TrainingSet[] halves = {new TrainingSet(plan.tiles()), new TrainingSet(plan.tiles())};
    Map<Integer, Integer> halfOf = new HashMap<>();
    List<Integer> judged = new ArrayList<>();
    each(
        plan.late(),
        "second look",
        (die, number) -> {
          boolean out = judged(die, number);
          if (out) {
            judged.add(number);
          }
          halfOf.put(number, halfOf.size() % halves.length);
          IntPredicate busy = die.busy(LabelledTiles.PURE);
          addOwn(fresh, die, number, busy, out);
          // Judged by a classifier that has not seen the die, as that of a user has not.
          TileClassifier eye = out ? half.partial() : half.classifier();
          IntFunction<float[]> rows = eye.surroundings(die.features(), die.sides());
          int[] classes = die.shownClasses(LabelledTiles.MOSTLY, 3);
          around.add(rows, classes, busy, number, out);
          halves[halfOf.get(number)].add(rows, classes, busy, number, out);
        });
    ModelTrainer.Trained first =
        ModelTrainer.trainFurther(half, seen, fresh, plan.name(), plan.facts());
    ModelTrainer.Trained second =
        ModelTrainer.trainSecond(first.classifier(), half.partial(), around);
    BlockSet blocks = blocks(half, halves, halfOf);
    BlockTrainer.Trained third = BlockTrainer.train(second.classifier(), second.partial(), blocks);
    TileClassifier classifier =
        third.classifier().withRegionsKnown(regions(judged, third.partial()));
    return new Result(
        classifier,
        first,
        seen.size() + fresh.size(),
        second,
        around.size(),
        third.accuracyLeftOut(),
        blocks.size());
  }

  /** Blocks of the late dies, as looks find them that were trained on the other half of those. */
  private BlockSet blocks(
      ModelTrainer.Trained half, TrainingSet[] halves, Map<Integer, Integer> halfOf) {
    List<ModelTrainer.Trained> looks =
        Stream.of(halves)
            .map(set -> ModelTrainer.trainSecond(half.classifier(), half.partial(), set))
            .toList();
    BlockSet out = new BlockSet();
    each(
        plan.late(),
        "blocks",
        (die, number) -> {
          boolean left = judged(die, number);
          ModelTrainer.Trained other = looks.get(1 - halfOf.get(number));
          TileClassifier eye = left ? other.partial() : other.classifier();
          int[] classes = die.classes(LabelledTiles.MOSTLY);
          for (int t = 0; t < classes.length; t++) {
            classes[t] = die.features().damaged(t) ? LabelledTiles.NO_SAMPLE : classes[t];
          }
          out.add(
              eye.blocks(
                  eye.classify(die.features(), die.sides()), die.features(), die.shown().tiles()),
              classes,
              left);
        });
    return out;
  }

  /** Hands the dies over in their order. */
  private void each(List<Integer> numbers, String part, ObjIntConsumer<LabelledTiles> add) {
    listener.part(part, numbers.size());
    for (int number : numbers) {
      LabelledTiles die = dies.apply(number);
      if (plan.without().stream().noneMatch(t -> die.technology().startsWith(t))) {
        add.accept(die, number);
      }
      listener.read(number, part);
    }
  }

  private static void addOwn(
      TrainingSet to, LabelledTiles die, int number, IntPredicate busy, boolean out) {
    to.add(
        die.features().vectors()::of, die.shownClasses(LabelledTiles.PURE, 1), busy, number, out);
  }

  /** Whether a die is one that the models behind the confidence do not see. */
  private boolean judged(LabelledTiles die, int number) {
    return TrainingSet.leftOut(number) || die.technology().startsWith(plan.judgeOn());
  }

  /** Regions of dies that the partial model has not seen, in their order. */
  private List<RegionConfidence.Outcome> regions(List<Integer> numbers, TileClassifier partial) {
    return numbers.parallelStream()
        .map(n -> JudgedRegions.of(dies.apply(n), partial))
        .flatMap(List::stream)
        .toList();
  }
}
