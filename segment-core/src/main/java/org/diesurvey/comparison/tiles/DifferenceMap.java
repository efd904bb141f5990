package org.diesurvey.comparison.tiles;

/**
 * Structural agreement of two registered dies on a grid of square tiles over the first die: column
 * 0 at the left, row 0 at the top.
 */
public final class DifferenceMap {
  /** What is known of a tile. */
  public enum State {
    /** The structure agrees. */
    SAME,
    /** The structure differs. */
    DIFFERENT,
    /** Too little structure, or hidden on a photograph. */
    NOT_JUDGED,
    /** Not seen on both photographs. */
    NOT_COMMON
  }

  private final int columns;
  private final int rows;
  private final double tile;
  private final float[] similarity;
  private final byte[] states;

  /**
   * @param tile side of a tile, unit of length
   * @param similarity row-major, -1 to 1; NaN where it is not known
   * @param states row-major ordinals of {@link State}
   */
  public DifferenceMap(int columns, int rows, double tile, float[] similarity, byte[] states) {
    this.columns = columns;
    this.rows = rows;
    this.tile = tile;
    this.similarity = similarity;
    this.states = states;
  }

  /** Columns of tiles. */
  public int columns() {
    return columns;
  }

  /** Rows of tiles. */
  public int rows() {
    return rows;
  }

  /** Side of a tile, unit of length of the comparison. */
  public double tile() {
    return tile;
  }

  /** Structural correlation of a tile, -1 to 1; NaN where it is not known. */
  public double similarity(int column, int row) {
    return similarity[row * columns + column];
  }

  /** What is known of a tile. */
  public State state(int column, int row) {
    return State.values()[states[row * columns + column]];
  }
}
