package org.diesurvey.tiles;

/**
 * Tiles of equal physical size that cover the upright die without gaps. A tile is not a whole
 * number of pixels: its pixel borders are rounded, so that the grid never drifts from the die.
 *
 * @param tileUm side of a tile, um
 * @param pitchUm pitch of the upright raster, um/px
 * @param width columns of the upright raster, px
 * @param height rows of the upright raster, px
 */
public record TileGrid(double tileUm, double pitchUm, int width, int height) {
  /** Rejects tiles smaller than two pixels. */
  public TileGrid {
    if (!(tileUm >= 2 * pitchUm)) {
      throw new IllegalArgumentException(
          "a tile of "
              + tileUm
              + " um needs a pitch of at most half of it, was "
              + pitchUm
              + " um/px");
    }
  }

  /** Side of a tile in px of the upright raster, not whole. */
  public double tilePx() {
    return tileUm / pitchUm;
  }

  /** Tiles across; the last one may be cut. */
  public int columns() {
    return Math.max(1, (int) Math.ceil(width / tilePx() - 0.25));
  }

  /** Tiles down; the last one may be cut. */
  public int rows() {
    return Math.max(1, (int) Math.ceil(height / tilePx() - 0.25));
  }

  /** All tiles. */
  public int count() {
    return rows() * columns();
  }

  /**
   * First pixel of a column or row of tiles in a raster reduced by a whole factor.
   *
   * @param index 0 to the number of columns or rows, the latter giving the end of the last one
   * @param reduction 1 for the upright raster itself
   * @param limit columns or rows of the reduced raster
   */
  public int start(int index, int reduction, int limit) {
    return Math.min(limit, (int) Math.round(index * tilePx() / reduction));
  }
}
