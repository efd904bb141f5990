package org.diesurvey.pipeline;

import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.FlatField;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.TileGrid;

/**
 * The upright die with its tiles, as every survey, scale guess and training run forms them: one
 * place, so that a model always sees what it was trained on.
 *
 * @param die upright, averaged over whole pixels where the photograph is finer than needed
 * @param grid its tiles
 */
public record TiledDie(PreparedDie die, TileGrid grid) {
  /** Photographs sampled finer than this are averaged over whole pixels first, um/px. */
  private static final double FINEST_WORKING_UM = 0.3;

  /** Least side of a tile, working px: below it a tile holds too few pixels for its sums. */
  private static final double LEAST_TILE_PX = 3;

  /**
   * Prepares a located die.
   *
   * @param source the photograph
   * @param frame where the die is
   * @param photoPitchUm pitch of the photograph, um/px
   * @param tileUm wanted side of a tile, um; coarse photographs get larger ones
   */
  public static TiledDie of(
      PixelSource source, DieLocation frame, double photoPitchUm, double tileUm) {
    return of(source, frame, photoPitchUm, tileUm, Optional.empty());
  }

  /**
   * Prepares a located die under light that was measured.
   *
   * @param flat the empty field; without one the light is estimated from the picture
   */
  public static TiledDie of(
      PixelSource source,
      DieLocation frame,
      double photoPitchUm,
      double tileUm,
      Optional<FlatField> flat) {
    int bin = bin(photoPitchUm);
    PreparedDie die = PreparedDie.of(source, frame, bin, flat);
    return of(die, photoPitchUm * bin, tileUm);
  }

  /**
   * The same die as if it had another pitch.
   *
   * @param otherPitchUm pitch of the photograph, um/px
   * @param tileUm wanted side of a tile, um
   */
  TiledDie atPitch(double otherPitchUm, double tileUm) {
    int bin = bin(otherPitchUm);
    return of(die.withBin(bin), otherPitchUm * bin, tileUm);
  }

  private static int bin(double photoPitchUm) {
    return Math.max(1, (int) Math.floor(FINEST_WORKING_UM / photoPitchUm));
  }

  /**
   * Tiles of a die that is prepared already.
   *
   * @param pitchUm pitch of its upright raster, um/px
   * @param tileUm wanted side of a tile, um
   */
  public static TiledDie of(PreparedDie die, double pitchUm, double tileUm) {
    double tile = Math.max(tileUm, LEAST_TILE_PX * pitchUm);
    return new TiledDie(die, new TileGrid(tile, pitchUm, die.width(), die.height()));
  }
}
