package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.Ensemble;
import org.diesurvey.classification.model.LinearStage;
import org.diesurvey.classification.model.NetworkStage;
import org.diesurvey.classification.model.PictureFamiliarity;
import org.diesurvey.classification.model.RegionConfidence;
import org.diesurvey.classification.model.SmallNetwork;
import org.diesurvey.classification.model.Stage;
import org.diesurvey.classification.model.Standardiser;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.model.TileModel;
import org.diesurvey.features.FeatureSchema;
import smile.classification.LogisticRegression;

/**
 * Trains the tile classifier: small networks and Smile's multinomial logistic regression, whose
 * probabilities are averaged. Repeatable: the same set gives the same model.
 */
public final class ModelTrainer {
  /** Networks that differ only in their random start; their mean is steadier than each. */
  private static final int NETWORKS = 4;

  private static final int HIDDEN = 96;
  private static final int HIDDEN_SECOND = 64;

  /** Passes over the rows and their mixed copies. */
  private static final int EPOCHS = 5;

  /**
   * Share of the features that a mixed copy has from another row (chosen on left-out processes).
   */
  private static final double SWAPPED = 0.3;

  private static final long MIXING_SEED = 20;
  private static final int BATCH = 256;
  private static final double RATE = 2e-3;

  /** Quadratic penalty of the networks. */
  private static final double SHRINK = 2;

  /** L2 penalty of the logistic regression, for about 1e5 rows. */
  private static final double PENALTY = 200;

  private static final int ITERATIONS = 150;

  /** More rows change the regression's few weights no more. */
  private static final int MOST_LINEAR_ROWS = 200_000;

  /** Share of the training tiles that count as typical. */
  private static final double TYPICAL = 0.998;

  private ModelTrainer() {}

  /**
   * A trained classifier and what it scored on dies left out.
   *
   * @param classifier trained on all dies
   * @param partial trained without the dies that are left out, for judging regions on those
   * @param accuracyLeftOut share of left-out tiles named rightly by a model trained on the others,
   *     classes balanced, 0 to 1
   * @param calibrationErrorLeftOut expected calibration error of the same, after the temperature
   *     was fitted, 0 to 1
   */
  public record Trained(
      TileClassifier classifier,
      TileClassifier partial,
      double accuracyLeftOut,
      double calibrationErrorLeftOut) {}

  /**
   * Trains the first classifier, which judges a tile by its own features. The temperature is fitted
   * on every tenth die, which the model behind it has not seen; the final one is then trained on
   * all. With further dies at hand see {@link #trainFurther}.
   *
   * @param set at least 20 dies
   * @param name of the model
   * @param facts how the set was made, for the model's record
   */
  public static Trained train(TrainingSet set, String name, SortedMap<String, String> facts) {
    return first(fit(set, HIDDEN), List.of(set), name, facts);
  }

  /**
   * Trains the first classifier on more dies. Accuracy and temperature are those of the early
   * partial classifier on the further dies that are left out.
   *
   * @param early trained on the dies of {@code seen}
   * @param fresh further dies
   */
  public static Trained trainFurther(
      Trained early,
      TrainingSet seen,
      TrainingSet fresh,
      String name,
      SortedMap<String, String> facts) {
    List<TrainingSet> both = List.of(seen, fresh);
    Fitted fitted =
        fitted(
            early.partial().model().first(),
            fresh.rows(TrainingSet.Which.LEFT_OUT),
            fresh.labels(TrainingSet.Which.LEFT_OUT),
            () -> fit(rows(both), labels(both), HIDDEN));
    return first(fitted, both, name, facts);
  }

  private static Trained first(
      Fitted fitted, List<TrainingSet> sets, String name, SortedMap<String, String> facts) {
    SortedMap<String, String> record = new TreeMap<>(facts);
    record.put("smile", "2.6.0");
    record(record, "", sets, fitted);
    float border = border(rows(sets), fitted.full().standardiser());
    PictureFamiliarity familiar = familiar(sets, fitted.full().standardiser());
    return new Trained(
        TileClassifier.of(firstOnly(name, fitted.full(), border, familiar, record)),
        TileClassifier.of(firstOnly(name, fitted.partial(), border, familiar, record)),
        fitted.accuracy(),
        fitted.calibrationError());
  }

  private static TileModel firstOnly(
      String name,
      Ensemble e,
      float border,
      PictureFamiliarity familiar,
      SortedMap<String, String> record) {
    return new TileModel(
        name,
        FeatureSchema.CURRENT.names(),
        e,
        Optional.empty(),
        border,
        familiar,
        RegionConfidence.PLAIN,
        record);
  }

  private static float[][] rows(List<TrainingSet> sets) {
    return sets.stream()
        .flatMap(s -> Arrays.stream(s.rows(TrainingSet.Which.ALL)))
        .toArray(float[][]::new);
  }

  private static int[] labels(List<TrainingSet> sets) {
    return sets.stream()
        .flatMapToInt(s -> Arrays.stream(s.labels(TrainingSet.Which.ALL)))
        .toArray();
  }

  /**
   * Adds the second classifier, which judges a tile again by what the first made of its
   * surroundings. The rows come from classifiers that have not seen their dies.
   *
   * @param first a model without a second classifier
   * @param early has seen none of the dies that are left out; may be {@code first}
   * @param set rows of {@link TileClassifier#surroundings} of at least 20 dies
   */
  public static Trained trainSecond(TileClassifier first, TileClassifier early, TrainingSet set) {
    Fitted fitted = fit(set, HIDDEN_SECOND);
    SortedMap<String, String> record = new TreeMap<>(first.model().training());
    record(record, "second_", List.of(set), fitted);
    return new Trained(
        TileClassifier.of(first.model().withSecond(fitted.full(), record)),
        TileClassifier.of(early.model().withSecond(fitted.partial(), record)),
        fitted.accuracy(),
        fitted.calibrationError());
  }

  private static PictureFamiliarity familiar(List<TrainingSet> sets, Standardiser standardiser) {
    List<float[]> means = new ArrayList<>();
    for (TrainingSet set : sets) {
      for (float[][] die : set.rowsByDie()) {
        means.add(PictureFamiliarity.mean(Arrays.asList(standardised(die, standardiser))));
      }
    }
    return PictureFamiliarity.learn(means);
  }

  private static void record(
      SortedMap<String, String> to, String prefix, List<TrainingSet> sets, Fitted fitted) {
    int tiles = sets.stream().mapToInt(TrainingSet::size).sum();
    to.put(prefix + "tiles", Integer.toString(tiles));
    to.put(prefix + "accuracy_left_out", Double.toString(Math.rint(fitted.accuracy() * 1e4) / 1e4));
    to.put(
        prefix + "calibration_error_left_out",
        Double.toString(Math.rint(fitted.calibrationError() * 1e4) / 1e4));
  }

  /** One trained on all dies, one without every tenth, and how that did on those. */
  private record Fitted(
      Ensemble full, Ensemble partial, double accuracy, double calibrationError) {}

  private static Fitted fit(TrainingSet set, int hidden) {
    Ensemble partial = fit(set, TrainingSet.Which.FOR_FITTING, hidden);
    return fitted(
        partial,
        set.rows(TrainingSet.Which.LEFT_OUT),
        set.labels(TrainingSet.Which.LEFT_OUT),
        () -> fit(set, TrainingSet.Which.ALL, hidden));
  }

  /** The final classifier takes the temperature that suits the partial one on dies left out. */
  private static Fitted fitted(
      Ensemble partial, float[][] leftOut, int[] labels, Supplier<Ensemble> full) {
    float temperature = temperature(partial, leftOut, labels);
    Ensemble tested = partial.withTemperature(temperature);
    double[] quality = quality(tested, leftOut, labels);
    return new Fitted(full.get().withTemperature(temperature), tested, quality[0], quality[1]);
  }

  private static Ensemble fit(TrainingSet set, TrainingSet.Which which, int hidden) {
    return fit(set.rows(which), set.labels(which), hidden);
  }

  private static Ensemble fit(float[][] rows, int[] labels, int hidden) {
    Standardiser standardiser = Standardiser.learn(rows);
    float[][] z = standardised(rows, standardiser);
    float[][] mixed = mixed(z);
    int[] twice = new int[2 * labels.length];
    System.arraycopy(labels, 0, twice, 0, labels.length);
    System.arraycopy(labels, 0, twice, labels.length, labels.length);
    // Independent of each other, so they may be trained side by side.
    List<Stage> stages =
        IntStream.rangeClosed(0, NETWORKS)
            .parallel()
            .mapToObj(
                i ->
                    i == NETWORKS
                        ? logistic(z, labels)
                        : NetworkStage.train(
                            mixed,
                            twice,
                            new SmallNetwork.Plan(hidden, EPOCHS, BATCH, RATE, SHRINK, 71 + i)))
            .toList();
    return new Ensemble(standardiser, stages, 1);
  }

  /**
   * The rows and then each once more with some features of another row: what a network then relies
   * on is less the one feature, so that it holds better on processes it has not seen. The idea is
   * swap noise, as used with denoising networks (common practice, no source).
   */
  static float[][] mixed(float[][] z) {
    SplittableRandom random = new SplittableRandom(MIXING_SEED);
    float[][] out = Arrays.copyOf(z, 2 * z.length);
    for (int i = 0; i < z.length; i++) {
      float[] other = z[random.nextInt(z.length)];
      float[] row = z[i].clone();
      for (int f = 0; f < row.length; f++) {
        row[f] = random.nextDouble() < SWAPPED ? other[f] : row[f];
      }
      out[z.length + i] = row;
    }
    return out;
  }

  static float[][] standardised(float[][] rows, Standardiser standardiser) {
    float[][] z = new float[rows.length][rows[0].length];
    for (int i = 0; i < rows.length; i++) {
      standardiser.apply(rows[i], z[i]);
    }
    return z;
  }

  private static LinearStage logistic(float[][] z, int[] labels) {
    int n = Math.min(z.length, MOST_LINEAR_ROWS);
    double[][] x = new double[n][];
    int[] y = new int[n];
    for (int i = 0; i < n; i++) {
      int at = (int) ((long) i * z.length / n);
      y[i] = labels[at];
      x[i] = new double[z[at].length];
      for (int f = 0; f < x[i].length; f++) {
        x[i][f] = z[at][f];
      }
    }
    LogisticRegression.Multinomial m =
        LogisticRegression.multinomial(x, y, PENALTY, 1e-4, ITERATIONS);
    int p = z[0].length;
    float[][] weights = new float[SurfaceClass.COUNT][p];
    float[] bias = new float[SurfaceClass.COUNT];
    // Smile keeps the last class at zero; each row ends with the intercept.
    double[][] w = m.coefficients();
    for (int k = 0; k < w.length && k < SurfaceClass.COUNT; k++) {
      for (int f = 0; f < p; f++) {
        weights[k][f] = (float) w[k][f];
      }
      bias[k] = (float) w[k][p];
    }
    return new LinearStage("multinomial logistic, L2 " + PENALTY, weights, bias);
  }

  private static float border(float[][] rows, Standardiser standardiser) {
    float[][] z = standardised(rows, standardiser);
    float[] d = new float[z.length];
    for (int i = 0; i < d.length; i++) {
      d[i] = TileModel.meanSquare(z[i]);
    }
    Arrays.sort(d);
    return d[(int) Math.min(d.length - 1, TYPICAL * d.length)];
  }

  private static float temperature(Ensemble m, float[][] rows, int[] labels) {
    return temperature(
        m,
        at -> {
          double loss = 0;
          for (int i = 0; i < rows.length; i++) {
            loss -= Math.log(Math.max(1e-9, at.probabilities(rows[i])[labels[i]]));
          }
          return loss;
        });
  }

  /**
   * Temperature with the least negative log-likelihood (Guo et al. 2017), by a fixed ladder.
   *
   * @param loss negative log-likelihood of what an ensemble says
   */
  static float temperature(Ensemble m, ToDoubleFunction<Ensemble> loss) {
    float best = 1;
    double least = Double.MAX_VALUE;
    for (float t = 0.6f; t < 5; t *= 1.06f) {
      double at = loss.applyAsDouble(m.withTemperature(t));
      if (at < least) {
        least = at;
        best = t;
      }
    }
    return best;
  }

  /** Class-balanced accuracy and expected calibration error in ten equal bins. */
  private static double[] quality(Ensemble m, float[][] rows, int[] labels) {
    double[] right = new double[SurfaceClass.COUNT];
    double[] count = new double[SurfaceClass.COUNT];
    double[] binRight = new double[10];
    double[] binConfidence = new double[10];
    double[] binCount = new double[10];
    for (int i = 0; i < rows.length; i++) {
      float[] p = m.probabilities(rows[i]);
      int at = largest(p);
      int bin = Math.min(9, (int) (p[at] * 10));
      binCount[bin]++;
      binConfidence[bin] += p[at];
      count[labels[i]]++;
      if (at == labels[i]) {
        right[labels[i]]++;
        binRight[bin]++;
      }
    }
    double accuracy = 0;
    double classes = 0;
    for (int k = 0; k < count.length; k++) {
      if (count[k] > 0) {
        accuracy += right[k] / count[k];
        classes++;
      }
    }
    double error = 0;
    for (int b = 0; b < 10; b++) {
      error += Math.abs(binRight[b] - binConfidence[b]) / Math.max(1, rows.length);
    }
    return new double[] {accuracy / Math.max(1, classes), error};
  }

  /** Index of the largest value, the first of equal ones. */
  static int largest(float[] values) {
    int at = 0;
    for (int k = 1; k < values.length; k++) {
      at = values[k] > values[at] ? k : at;
    }
    return at;
  }
}
