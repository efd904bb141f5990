package org.diesurvey.comparison.tiles;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.diesurvey.classification.model.SmallNetwork;

/** Log odds of a changed tile from {@link TileChangeFeatures}, trained on drawn revisions. */
public final class TileChangeClassifier {
  private static final SmallNetwork.Plan PLAN = new SmallNetwork.Plan(24, 16, 256, 4e-3, 30, 1);

  private final SmallNetwork network;

  private TileChangeClassifier(SmallNetwork network) {
    this.network = network;
  }

  /** The one in the library; loaded on first use only. */
  public static TileChangeClassifier shipped() {
    return Shipped.NETWORK;
  }

  private static final class Shipped {
    static final TileChangeClassifier NETWORK =
        new TileChangeClassifier(resource("/org/diesurvey/comparison/change-network.json"));
  }

  /** A network in the library. */
  public static SmallNetwork resource(String name) {
    try (InputStream in = TileChangeClassifier.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("the library has no network " + name);
      }
      return SmallNetwork.read(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException("the network " + name + " cannot be read", e);
    }
  }

  /** One that finds nothing, to train from. */
  public static TileChangeClassifier blank() {
    return new TileChangeClassifier(SmallNetwork.blank(TileChangeFeatures.SIZE, 2));
  }

  public static TileChangeClassifier read(byte[] json) throws IOException {
    return new TileChangeClassifier(SmallNetwork.read(json));
  }

  public byte[] write() throws IOException {
    return network.write();
  }

  /** Log odds that the tile has changed. */
  float of(float[] features) {
    float[] scores = network.scores(features);
    return scores[1] - scores[0];
  }

  /**
   * @param rows features, one row a tile
   * @param changed 1 for changed tiles, else 0
   * @param weight of each row
   */
  public static TileChangeClassifier train(float[][] rows, int[] changed, float[] weight) {
    return new TileChangeClassifier(SmallNetwork.train(rows, changed, weight, 2, PLAN));
  }
}
