package org.diesurvey.classification.model;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Properties;
import java.util.stream.IntStream;
import org.diesurvey.Supported;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.TileGrid;

/**
 * Probabilities of surface classes from feature vectors, by a trained model. Immutable, safe for
 * many threads.
 */
@Supported
public final class TileClassifier {
  private static final String SHIPPED = "/org/diesurvey/classification/tile-model.json.gz";

  /** Power of the evidence of blocks beside that of tiles (chosen on drawn dies). */
  private static final double BLOCKS = 0.5;

  /** Evidence below this counts as this, so that none is zero. */
  private static final double LEAST = 1e-6;

  private final TileModel model;
  private final String sha256;

  private TileClassifier(TileModel model, String sha256) {
    this.model = model;
    this.sha256 = sha256;
  }

  /** The model in the library. */
  public static TileClassifier shipped() {
    return Shipped.CLASSIFIER;
  }

  /**
   * Begins to read the shipped model in the background, so that a photograph can be read meanwhile.
   */
  public static void loadAhead() {
    Thread t = new Thread(TileClassifier::shipped, "shipped model");
    t.setDaemon(true);
    t.start();
  }

  /** Loaded on first use only. */
  private static final class Shipped {
    static final TileClassifier CLASSIFIER = load();

    private static TileClassifier load() {
      try (InputStream in = TileClassifier.class.getResourceAsStream(SHIPPED)) {
        if (in == null) {
          throw new IllegalStateException(
              "the library has no model; make one with the training command and build again");
        }
        return of(in.readAllBytes(), "shipped model");
      } catch (IOException e) {
        throw new IllegalStateException("the shipped model cannot be read", e);
      }
    }
  }

  /**
   * A model from the bytes of its file.
   *
   * @param bytes of the compressed model file
   * @param name of the file, for messages
   * @throws org.diesurvey.DieInputException if the file is not a model of this version
   */
  public static TileClassifier of(byte[] bytes, String name) {
    return new TileClassifier(ModelFile.read(bytes, name), ModelFile.sha256(bytes));
  }

  /** A model that was just trained. */
  public static TileClassifier of(TileModel model) {
    return new TileClassifier(model, ModelFile.sha256(ModelFile.write(model)));
  }

  /** The same model with the confidence of regions fitted on regions whose class is known. */
  public TileClassifier withRegionsKnown(List<RegionConfidence.Outcome> outcomes) {
    return of(model.withRegionConfidence(RegionConfidence.fit(outcomes)));
  }

  /** The trained numbers. */
  public TileModel model() {
    return model;
  }

  /** From tile probabilities to the confidence of a region. */
  public RegionConfidence regionConfidence() {
    return model.regionConfidence();
  }

  /** Name of the model. */
  public String name() {
    return model.name();
  }

  /** SHA-256 of the model file, lower-case hex. */
  public String sha256() {
    return sha256;
  }

  /** The model file's bytes. */
  public byte[] bytes() {
    return ModelFile.write(model);
  }

  /** Version of this software, from the build. */
  public String softwareVersion() {
    return programVersion();
  }

  /** Version of this software, for results that no model made. */
  public static String programVersion() {
    return Version.TEXT;
  }

  /** Read once from a file that the build fills in. */
  private static final class Version {
    static final String TEXT = read();

    private static String read() {
      Properties p = new Properties();
      try (InputStream in =
          TileClassifier.class.getResourceAsStream("/org/diesurvey/version.properties")) {
        if (in != null) {
          p.load(in);
        }
      } catch (IOException e) {
        throw new IllegalStateException("the version file cannot be read", e);
      }
      return p.getProperty("version", "unknown");
    }
  }

  /**
   * Probabilities for all tiles; runs on the calling thread's fork-join pool.
   *
   * @param sides which sides of the grid are the die's own edges
   */
  public TileProbabilities classify(FeatureTable features, List<DieSide> sides) {
    TileModel fit = forPicture(features);
    TileProbabilities own = classifyAlone(fit, features);
    if (fit.second().isEmpty()) {
      return own;
    }
    Ensemble second = fit.second().get();
    ContextFeatures surroundings =
        ContextFeatures.of(features, own, fit.first().standardiser(), sides);
    return classify(
        features.grid(),
        second,
        () -> {
          float[] row = new float[ContextFeatures.SIZE];
          return (tile, z) -> {
            surroundings.write(tile, row);
            second.standardiser().apply(row, z);
            return own.strangeness(tile);
          };
        });
  }

  /** Each tile by its own features, without a look at its surroundings. */
  public TileProbabilities classifyAlone(FeatureTable features) {
    return classifyAlone(forPicture(features), features);
  }

  private static TileProbabilities classifyAlone(TileModel fit, FeatureTable features) {
    return classify(
        features.grid(),
        fit.first(),
        () -> {
          FeatureTable.Vectors vectors = features.vectors();
          return (tile, z) -> {
            fit.first().standardiser().apply(vectors.of(tile), z);
            return fit.strangeness(z);
          };
        });
  }

  /** The model as it judges this picture: a taught one counts by how like the picture is. */
  private TileModel forPicture(FeatureTable features) {
    return model.taught().isEmpty() ? model : model.forPicture(mean(features));
  }

  /** Mean of the standardised features of all tiles that are not damaged; zeros if all are. */
  public float[] mean(FeatureTable features) {
    return soundMean(features).value();
  }

  private PictureFamiliarity.Mean soundMean(FeatureTable features) {
    PictureFamiliarity.Mean mean = new PictureFamiliarity.Mean(model.features());
    float[] z = new float[model.features()];
    FeatureTable.Vectors vectors = features.vectors();
    for (int t = 0; t < features.grid().count(); t++) {
      if (!features.damaged(t)) {
        model.first().standardiser().apply(vectors.of(t), z);
        mean.add(z);
      }
    }
    return mean;
  }

  /**
   * How unlike the training dies the picture is as a whole: above 1 it is unlike all of them.
   * Damaged tiles do not count.
   */
  public double unfamiliarity(FeatureTable features) {
    PictureFamiliarity.Mean mean = soundMean(features);
    return mean.isEmpty() ? 0 : model.familiar().distance(mean.value());
  }

  /** The rows that the second classifier judges, or is trained on. */
  public java.util.function.IntFunction<float[]> surroundings(
      FeatureTable features, List<DieSide> sides) {
    ContextFeatures s =
        ContextFeatures.of(features, classifyAlone(features), model.first().standardiser(), sides);
    return tile -> {
      float[] row = new float[ContextFeatures.SIZE];
      s.write(tile, row);
      return row;
    };
  }

  /**
   * The evidence of tiles joined with that of the blocks that they form: the roots of both
   * multiplied. A taught model counts blocks the less the more a picture is like what it was taught
   * on, because blocks were not. The same evidence where the model judges no blocks. Runs on the
   * calling thread's fork-join pool.
   *
   * @param tiles evidence of the tiles
   * @param onDie tiles that show the die
   */
  public TileProbabilities joinedWithBlocks(
      TileProbabilities tiles, FeatureTable features, boolean[] onDie) {
    if (model.blocks().isEmpty()) {
      return tiles;
    }
    double taught = model.taught().map(t -> t.share(model.familiar(), mean(features))).orElse(0.0);
    double weight = BLOCKS * (1 - taught);
    if (weight <= 0) {
      return tiles;
    }
    BlockFeatures blocks = blocks(tiles, features, onDie);
    float[] ofBlocks = model.blocks().get().probabilities(blocks);
    TileGrid grid = tiles.grid();
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    float[] strangeness = new float[grid.count()];
    double[] joined = new double[SurfaceClass.COUNT];
    for (int t = 0; t < strangeness.length; t++) {
      double sum = 0;
      for (SurfaceClass c : SurfaceClass.values()) {
        int k = c.ordinal();
        double block = Math.max(LEAST, ofBlocks[blocks.of(t) * SurfaceClass.COUNT + k]);
        double tile = Math.max(LEAST, tiles.get(t, c));
        joined[k] = Math.pow(tile, 1 - weight) * Math.pow(block, weight);
        sum += joined[k];
      }
      for (int k = 0; k < joined.length; k++) {
        values[t * SurfaceClass.COUNT + k] = (float) (joined[k] / sum);
      }
      strangeness[t] = tiles.strangeness(t);
    }
    return new TileProbabilities(grid, values, strangeness);
  }

  /** What is judged, or trained on, of the blocks that tiles form. */
  public BlockFeatures blocks(TileProbabilities tiles, FeatureTable features, boolean[] onDie) {
    return BlockFeatures.of(features, tiles, model.first().standardiser(), onDie);
  }

  /** Writes the standardised features of a tile and tells how strange the tile is. */
  private interface Rows {
    float write(int tile, float[] z);
  }

  private static TileProbabilities classify(
      TileGrid grid, Ensemble ensemble, java.util.function.Supplier<Rows> source) {
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    float[] strangeness = new float[grid.count()];
    IntStream.range(0, grid.rows())
        .parallel()
        .forEach(
            r -> {
              Rows rows = source.get();
              float[] z = new float[ensemble.features()];
              float[] all = new float[grid.columns() * z.length];
              int first = r * grid.columns();
              for (int c = 0; c < grid.columns(); c++) {
                strangeness[first + c] = rows.write(first + c, z);
                System.arraycopy(z, 0, all, c * z.length, z.length);
              }
              ensemble.addProbabilities(all, grid.columns(), values, first * SurfaceClass.COUNT);
            });
    return new TileProbabilities(grid, values, strangeness);
  }
}
