package org.diesurvey.comparison.changes;

import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileSet;

/** What the ground says of a block that is found again at another place. */
final class MovedGround {
  /** Share of the ground that a moved block leaves and takes which must change its kind. */
  private static final double LEAVES = 0.5;

  /**
   * Correlation of a moved block with itself, of what the pair typically reaches, from which no
   * other sign is needed.
   */
  static final double SURE_LIKENESS = 0.85;

  private MovedGround() {}

  /**
   * Whether a block left the ground it had and came to ground that was none: else only a lattice
   * fits itself.
   *
   * @param a the block in the first die
   * @param b its new place
   * @param block log odds of a block in each picture
   */
  static boolean leaves(TileSet a, TileSet b, OfBoth<float[]> block, int columns) {
    return free(a, b, block.second(), columns) >= LEAVES
        && free(b, a, block.first(), columns) >= LEAVES;
  }

  /** Share of the ground of p outside q that shows no block; without its rim where it is wide. */
  private static double free(TileSet p, TileSet q, float[] block, int columns) {
    boolean[] only = p.mask().clone();
    for (int i = 0; i < only.length; i++) {
      only[i] &= !q.mask()[i];
    }
    double within = share(TileSet.shrunk(only, columns, 1), block);
    return Double.isNaN(within) ? share(only, block) : within;
  }

  private static double share(boolean[] of, float[] block) {
    int n = 0;
    int free = 0;
    for (int i = 0; i < of.length; i++) {
      if (of[i]) {
        n++;
        free += block[i] > 0 ? 0 : 1;
      }
    }
    return n == 0 ? Double.NaN : free / (double) n;
  }

  /**
   * Whether the pad ring forbids a move: I/O cells of one library are alike, so what is found along
   * the ring has not moved there, and what left it or came to it must be found again surely.
   *
   * @param a whether the old place lies in the ring
   * @param b whether the new one does
   * @param likeness correlation of the block with itself, of what the pair typically reaches
   */
  static boolean ofRing(boolean a, boolean b, double likeness) {
    return a && b || (a || b) && likeness < SURE_LIKENESS;
  }
}
