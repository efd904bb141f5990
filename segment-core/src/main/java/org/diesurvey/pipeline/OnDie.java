package org.diesurvey.pipeline;

import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.TileGrid;

/**
 * Which tiles of the upright raster show anything: a turned photograph without a die edge has empty
 * corners.
 */
public final class OnDie {
  private OnDie() {}

  /** One flag a tile: whether its middle lies in the photograph. */
  public static boolean[] tiles(PreparedDie die, TileGrid grid) {
    boolean[] out = new boolean[grid.count()];
    for (int t = 0; t < out.length; t++) {
      double x = (t % grid.columns() + 0.5) * grid.tilePx();
      double y = (t / grid.columns() + 0.5) * grid.tilePx();
      double px = die.uprightToPhoto().x(x, y);
      double py = die.uprightToPhoto().y(x, y);
      out[t] = px >= 0 && py >= 0 && px < die.source().width() && py < die.source().height();
    }
    return out;
  }
}
