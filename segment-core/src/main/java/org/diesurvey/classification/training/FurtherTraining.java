package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.Ensemble;
import org.diesurvey.classification.model.NetworkStage;
import org.diesurvey.classification.model.SmallNetwork;
import org.diesurvey.classification.model.Stage;
import org.diesurvey.classification.model.Standardiser;

/**
 * Trains the networks of an ensemble further on taught tiles, so that its answers elsewhere stay.
 *
 * <p>Two kinds of other rows hold them: rehearsed tiles of drawn dies, and points on the lines
 * through two such tiles, between and beyond them, where no drawn die lies but other technologies
 * may. Of both the old answer is wanted, whatever it is: true classes would move the networks
 * everywhere. Holding old answers: Li and Hoiem 2016, learning without forgetting; points between
 * rows: Zhang et al. 2018, mixup; both from memory.
 */
final class FurtherTraining {
  private static final SmallNetwork.Plan PLAN = new SmallNetwork.Plan(0, 6, 64, 5e-4, 0, 4711);

  /** Points on lines, for each rehearsed tile. */
  private static final int POINTS = 2;

  /** How far points lie beyond the two tiles, of their distance. */
  private static final double BEYOND = 0.5;

  private final Ensemble old;
  private final List<float[]> rows = new ArrayList<>();
  private final List<float[]> wanted = new ArrayList<>();

  private FurtherTraining(Ensemble old) {
    // Networks are trained on scores that no temperature divides.
    this.old = old.withTemperature(1);
  }

  /**
   * Trains further; runs on the calling thread's fork-join pool.
   *
   * @param old ensemble that knows what is rehearsed
   * @param rehearsal tiles of drawn dies
   * @param taught tiles of outlines
   * @return with the networks of the old one trained further; its other members as they are
   */
  static Ensemble of(Ensemble old, TrainingSet rehearsal, TrainingSet taught) {
    FurtherTraining all = new FurtherTraining(old);
    all.addRehearsed(rehearsal);
    all.addPoints();
    all.addTaught(taught);
    float[][] z = all.rows.toArray(float[][]::new);
    float[][] answers = all.wanted.toArray(float[][]::new);
    List<Stage> stages =
        IntStream.range(0, old.stages().size())
            .parallel()
            .mapToObj(
                i ->
                    old.stages().get(i) instanceof NetworkStage n
                        ? NetworkStage.further(n, z, answers, PLAN)
                        : old.stages().get(i))
            .toList();
    return new Ensemble(old.standardiser(), stages, old.temperature());
  }

  private void addRehearsed(TrainingSet set) {
    for (float[] tile : set.rows(TrainingSet.Which.ALL)) {
      hold(standardised(tile));
    }
  }

  private void addTaught(TrainingSet set) {
    for (float[] tile : set.rows(TrainingSet.Which.ALL)) {
      rows.add(standardised(tile));
    }
    wanted.addAll(List.of(NetworkStage.certain(set.labels(TrainingSet.Which.ALL))));
  }

  /** A row whose answer shall stay. */
  private void hold(float[] z) {
    float[] answer = new float[SurfaceClass.COUNT];
    old.addProbabilities(z, answer, 0);
    rows.add(z);
    wanted.add(answer);
  }

  private float[] standardised(float[] tile) {
    float[] z = new float[old.features()];
    old.standardiser().apply(tile, z);
    return z;
  }

  private void addPoints() {
    SplittableRandom random = new SplittableRandom(PLAN.seed());
    int tiles = rows.size();
    for (int i = 0; i < POINTS * tiles; i++) {
      float[] a = rows.get(random.nextInt(tiles));
      float[] b = rows.get(random.nextInt(tiles));
      float along = (float) (random.nextDouble() * (1 + 2 * BEYOND) - BEYOND);
      float[] z = new float[a.length];
      for (int f = 0; f < z.length; f++) {
        float v = a[f] + along * (b[f] - a[f]);
        z[f] = Math.max(-Standardiser.CLIP, Math.min(Standardiser.CLIP, v));
      }
      hold(z);
    }
  }
}
