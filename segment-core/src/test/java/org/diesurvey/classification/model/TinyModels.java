package org.diesurvey.classification.model;

import java.util.SplittableRandom;
import java.util.TreeMap;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureSchema;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.TileGrid;

/** Small models and small drawn dies for tests of the classifier's own mechanics. */
public final class TinyModels {
  private TinyModels() {}

  /** A linear stage and a small network with random weights. */
  public static TileModel random(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int n = FeatureSchema.CURRENT.size();
    float[] scale = floats(random, n);
    for (int i = 0; i < n; i++) {
      scale[i] = 0.1f + Math.abs(scale[i]);
    }
    return new TileModel(
        "tiny",
        FeatureSchema.CURRENT.names(),
        ensemble(random, n, scale),
        java.util.Optional.empty(),
        1.7f,
        familiar(random, n),
        new RegionConfidence(1.1, 0.2, -0.3, 0.4, 0.5, -0.6),
        new TreeMap<>(java.util.Map.of("seeds", "1 to 3")));
  }

  /** The same with a second look at the surroundings. */
  public static TileModel withSecond(long seed) {
    SplittableRandom random = new SplittableRandom(seed + 1);
    float[] scale = new float[ContextFeatures.SIZE];
    java.util.Arrays.fill(scale, 1.5f);
    TileModel first = random(seed);
    return first.withSecond(
        ensemble(random, ContextFeatures.SIZE, scale), new TreeMap<>(first.training()));
  }

  private static PictureFamiliarity familiar(SplittableRandom random, int n) {
    float[][] inverse = new float[n][n];
    for (int i = 0; i < n; i++) {
      inverse[i][i] = 1;
    }
    return new PictureFamiliarity(floats(random, n), inverse, 2);
  }

  private static Ensemble ensemble(SplittableRandom random, int n, float[] scale) {
    return new Ensemble(
        new Standardiser(floats(random, n), scale),
        java.util.List.of(
            new LinearStage(
                "linear",
                matrix(random, SurfaceClass.COUNT, n),
                floats(random, SurfaceClass.COUNT)),
            new NetworkStage(
                matrix(random, n, 6),
                floats(random, 6),
                matrix(random, 6, SurfaceClass.COUNT),
                floats(random, SurfaceClass.COUNT))),
        1.3f);
  }

  private static float[][] matrix(SplittableRandom random, int rows, int columns) {
    float[][] m = new float[rows][];
    for (int r = 0; r < rows; r++) {
      m[r] = floats(random, columns);
    }
    return m;
  }

  private static float[] floats(SplittableRandom random, int n) {
    float[] v = new float[n];
    for (int i = 0; i < n; i++) {
      v[i] = (float) (0.2 * random.nextGaussian());
    }
    return v;
  }

  /** A die of 12 x 12 tiles in six strips of unlike stripes. */
  public static FeatureTable die(long seed) {
    PreparedDie die =
        DrawnSource.noisy(
                96,
                96,
                0.02,
                seed,
                (x, y) -> {
                  int strip = (int) (x / 16);
                  double place = strip % 2 == 0 ? x + y : y;
                  return 0.4 + (place % (3 + strip) < 1.5 + 0.2 * strip ? 0.05 * (strip + 1) : 0);
                })
            .wholeAsDie(false, 1);
    return FeatureTable.extract(die, new TileGrid(8, 1, 96, 96));
  }

  /** Class of each tile of {@link #die}: one for each strip of two tile columns. */
  public static int[] classes() {
    int[] out = new int[144];
    for (int t = 0; t < out.length; t++) {
      out[t] = t % 12 / 2;
    }
    return out;
  }
}
