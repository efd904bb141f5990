package org.diesurvey.classification.training;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.Ensemble;
import org.diesurvey.classification.model.NetworkStage;
import org.diesurvey.classification.model.SmallNetwork;
import org.diesurvey.classification.model.Stage;
import org.diesurvey.classification.model.Standardiser;
import org.diesurvey.classification.model.TileClassifier;

/**
 * Trains the classifier of blocks: small networks that give the shares of the classes in a block.
 * Repeatable: the same set gives the same model. The plan hardly matters: twice or half of the
 * units, passes or penalty changed nothing on drawn dies.
 */
public final class BlockTrainer {
  private static final int NETWORKS = 4;
  private static final SmallNetwork.Plan PLAN = new SmallNetwork.Plan(96, 8, 128, 2e-3, 20, 171);

  private BlockTrainer() {}

  /**
   * A classifier with one of blocks, and what it scored on dies left out.
   *
   * @param classifier trained on all dies
   * @param partial trained without the dies that are left out
   * @param accuracyLeftOut share of left-out blocks whose main class was named by a model trained
   *     on the others, by what each counts, 0 to 1
   */
  public record Trained(
      TileClassifier classifier, TileClassifier partial, double accuracyLeftOut) {}

  /**
   * Adds the classifier of blocks.
   *
   * @param classifier a model without one
   * @param early has seen none of the dies that are left out
   * @param set blocks of at least 20 dies
   */
  public static Trained train(TileClassifier classifier, TileClassifier early, BlockSet set) {
    Ensemble half = fit(set.part(TrainingSet.Which.FOR_FITTING));
    BlockSet.Part out = set.part(TrainingSet.Which.LEFT_OUT);
    Ensemble tested = half.withTemperature(temperature(half, out));
    Ensemble full = fit(set.part(TrainingSet.Which.ALL)).withTemperature(tested.temperature());
    double accuracy = accuracy(tested, out);
    SortedMap<String, String> record = new TreeMap<>(classifier.model().training());
    record.put("blocks", Integer.toString(set.size()));
    record.put("blocks_accuracy_left_out", Double.toString(Math.rint(accuracy * 1e4) / 1e4));
    return new Trained(
        TileClassifier.of(classifier.model().withBlocks(full, record)),
        TileClassifier.of(early.model().withBlocks(tested, record)),
        accuracy);
  }

  private static Ensemble fit(BlockSet.Part part) {
    Standardiser standardiser = Standardiser.learn(part.rows);
    float[][] z = ModelTrainer.mixed(ModelTrainer.standardised(part.rows, standardiser));
    float[][] wanted = new float[z.length][];
    float[] weight = new float[z.length];
    weigh(part, wanted, weight);
    // Independent of each other, so they may be trained side by side.
    List<Stage> stages =
        IntStream.range(0, NETWORKS)
            .parallel()
            .<Stage>mapToObj(
                i -> NetworkStage.train(z, wanted, weight, PLAN.withSeed(PLAN.seed() + i)))
            .toList();
    return new Ensemble(standardiser, stages, 1);
  }

  /**
   * Fills in what is wanted of each row and of its mixed copy. A class counts the more the rarer it
   * is, by the root: a share is then not the wanted probability itself, which is scaled to sum to 1
   * while the row takes the scale as its weight. Weights are 1 in the mean.
   */
  private static void weigh(BlockSet.Part part, float[][] wanted, float[] weight) {
    int n = part.rows.length;
    double[] mass = new double[SurfaceClass.COUNT];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < mass.length; k++) {
        mass[k] += part.shares[i][k] * part.weights[i];
      }
    }
    double total = 0;
    for (int i = 0; i < n; i++) {
      float[] w = new float[mass.length];
      double sum = 0;
      for (int k = 0; k < w.length; k++) {
        w[k] = (float) (part.shares[i][k] / Math.sqrt(Math.max(1, mass[k])));
        sum += w[k];
      }
      for (int k = 0; k < w.length; k++) {
        w[k] /= (float) sum;
      }
      wanted[i] = w;
      wanted[n + i] = w;
      weight[i] = (float) (sum * part.weights[i]);
      total += weight[i];
    }
    for (int i = 0; i < n; i++) {
      weight[i] *= (float) (n / total);
      weight[n + i] = weight[i];
    }
  }

  private static float temperature(Ensemble m, BlockSet.Part part) {
    return ModelTrainer.temperature(
        m,
        at -> {
          double loss = 0;
          for (int i = 0; i < part.rows.length; i++) {
            float[] p = at.probabilities(part.rows[i]);
            for (int k = 0; k < p.length; k++) {
              loss -= part.weights[i] * part.shares[i][k] * Math.log(Math.max(1e-9, p[k]));
            }
          }
          return loss;
        });
  }

  private static double accuracy(Ensemble m, BlockSet.Part part) {
    double right = 0;
    double all = 0;
    for (int i = 0; i < part.rows.length; i++) {
      int found = ModelTrainer.largest(m.probabilities(part.rows[i]));
      right += found == ModelTrainer.largest(part.shares[i]) ? part.weights[i] : 0;
      all += part.weights[i];
    }
    return all == 0 ? 0 : right / all;
  }
}
