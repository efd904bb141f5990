package org.diesurvey.classification;

import java.io.IOException;
import java.io.InputStream;
import java.util.Properties;
import java.util.stream.IntStream;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;

/**
 * Probabilities of surface classes from feature vectors, by a trained model. Immutable, safe for
 * many threads.
 */
public final class TileClassifier {
  private static final String SHIPPED = "/org/diesurvey/classification/tile-model.json.gz";

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
  static TileClassifier of(TileModel model) {
    return new TileClassifier(model, ModelFile.sha256(ModelFile.write(model)));
  }

  /** The same model with the confidence of regions fitted on regions whose class is known. */
  public TileClassifier withRegionsKnown(java.util.List<RegionConfidence.Outcome> outcomes) {
    return of(model.withRegionConfidence(RegionConfidence.fit(outcomes)));
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

  /** Probabilities for all tiles; runs on the calling thread's fork-join pool. */
  public TileProbabilities classify(FeatureTable features) {
    TileGrid grid = features.grid();
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    float[] strangeness = new float[grid.count()];
    IntStream.range(0, grid.rows())
        .parallel()
        .forEach(
            r -> {
              float[] z = new float[model.features()];
              for (int c = 0; c < grid.columns(); c++) {
                int t = r * grid.columns() + c;
                model.standardiser().apply(features.row(t), z);
                model.addProbabilities(z, values, t * SurfaceClass.COUNT);
                strangeness[t] = model.strangeness(z);
              }
            });
    return new TileProbabilities(grid, values, strangeness);
  }
}
