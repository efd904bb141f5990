package org.diesurvey.comparison.changes;

import java.io.IOException;
import java.util.Optional;
import org.diesurvey.classification.model.SmallNetwork;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.tiles.TileChangeClassifier;

/**
 * Tells from {@link CandidateFigures} whether a place changed and how, where the rules made a
 * proposal; trained on places of drawn revisions.
 */
public final class ChangeKindClassifier {
  /** Class of a place where nothing changed, after the kinds in their order. */
  public static final int NOTHING = ChangeKind.values().length;

  /**
   * Probability of no change from which none is told: a false change costs more than a missed one.
   */
  private static final double PERHAPS_NOTHING = 0.2;

  private static final SmallNetwork.Plan PLAN = new SmallNetwork.Plan(32, 60, 64, 5e-3, 24, 1);

  private final SmallNetwork network;

  private ChangeKindClassifier(SmallNetwork network) {
    this.network = network;
  }

  /** The one in the library; loaded on first use only. */
  public static ChangeKindClassifier shipped() {
    return Shipped.NETWORK;
  }

  private static final class Shipped {
    static final ChangeKindClassifier NETWORK =
        new ChangeKindClassifier(
            TileChangeClassifier.resource("/org/diesurvey/comparison/kind-network.json"));
  }

  /** One that knows nothing, to train from. */
  public static ChangeKindClassifier blank() {
    return new ChangeKindClassifier(SmallNetwork.blank(CandidateFigures.SIZE, NOTHING + 1));
  }

  static ChangeKindClassifier read(byte[] json) throws IOException {
    return new ChangeKindClassifier(SmallNetwork.read(json));
  }

  public byte[] write() throws IOException {
    return network.write();
  }

  /**
   * What became of a place.
   *
   * @param confidence probability of the kind, 0 to 1
   */
  record Verdict(ChangeKind kind, double confidence) {}

  /**
   * The most likely kind; empty where nothing changed.
   *
   * @param proposed by the rules: only what they found to have moved can have moved, since a move
   *     needs a shift
   */
  Optional<Verdict> of(float[] figures, ChangeKind proposed) {
    float[] p = network.probabilities(figures);
    if (p[NOTHING] >= PERHAPS_NOTHING) {
      return Optional.empty();
    }
    ChangeKind best = proposed;
    for (ChangeKind k : ChangeKind.values()) {
      boolean possible = k != ChangeKind.MOVED || proposed == ChangeKind.MOVED;
      best = possible && p[k.ordinal()] > p[best.ordinal()] ? k : best;
    }
    return Optional.of(new Verdict(best, p[best.ordinal()]));
  }

  /**
   * @param rows figures, one row a place
   * @param labels ordinals of kinds, or {@link #NOTHING}
   */
  public static ChangeKindClassifier train(float[][] rows, int[] labels) {
    float[] weight = new float[rows.length];
    java.util.Arrays.fill(weight, 1);
    return new ChangeKindClassifier(SmallNetwork.train(rows, labels, weight, NOTHING + 1, PLAN));
  }
}
