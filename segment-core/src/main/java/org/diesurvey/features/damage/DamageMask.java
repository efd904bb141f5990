package org.diesurvey.features.damage;

import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Where something lies on the surface: residue of upper metal and glare are far brighter than
 * anything that belongs to the layer, dust and burns far darker; what is less so must have the
 * shape of damage. Tiles that are hidden take no part in any window.
 */
public final class DamageMask {
  /** Shares of the cells that count as the layer's own dark and bright end. */
  private static final double DARK_END = 0.02;

  private static final double BRIGHT_END = 0.98;

  /** Least size of a spot, um2. */
  private static final double LEAST_UM2 = 40;

  /** Halo around a spot that is given up with it, um. */
  private static final double HALO_UM = 4;

  /** Bins of the histogram of greys: finer than the least departure by far. */
  private static final int GREY_BINS = 4096;

  /** Largest grey counted exactly: evened light may exceed 1. */
  private static final double GREY_TOP = 2;

  private DamageMask() {}

  /** Finds the places that are hidden, each at least {@link #LEAST_UM2}. */
  public static DamageMap find(FineMap fine, DamageTuning tuning) {
    return find(fine, new boolean[fine.columns() * fine.rows()], tuning);
  }

  /**
   * The same where some cells show nothing; they take no part in what is usual.
   *
   * @param missing one flag a cell, row-major
   */
  public static DamageMap find(FineMap fine, boolean[] missing, DamageTuning tuning) {
    int w = fine.columns();
    int h = fine.rows();
    float[] grey = new float[w * h];
    int[] histogram = new int[GREY_BINS];
    int seen = 0;
    for (int i = 0; i < grey.length; i++) {
      grey[i] = fine.grey(i / w, i % w);
      histogram[bin(grey[i])] += missing[i] ? 0 : 1;
      seen += missing[i] ? 0 : 1;
    }
    double middle = quantile(histogram, 0.5, seen);
    double dark = quantile(histogram, DARK_END, seen);
    double bright = quantile(histogram, BRIGHT_END, seen);
    double high = bright + Math.max(tuning.leastGrey(), tuning.beyond() * (bright - middle));
    double low = dark - Math.max(tuning.leastGrey(), tuning.beyond() * (middle - dark));
    byte[] spots = new byte[w * h];
    for (int i = 0; i < spots.length; i++) {
      spots[i] = (byte) (grey[i] > high ? 1 : grey[i] < low ? 2 : 0);
    }
    new IrregularSpots(grey, w, h, fine.cellUm(), tuning.offAxis()).mark(spots);
    GlareSkirt.free(spots, fine);
    int least = (int) (LEAST_UM2 / (fine.cellUm() * fine.cellUm()));
    LabelRaster hidden = large(LabelRaster.over(w, h, spots), least);
    for (int i = 0; i < missing.length; i++) {
      if (missing[i]) {
        hidden.set(i % w, i / w, DamageMap.MISSING);
      }
    }
    return DamageMap.of(hidden, fine.cellUm());
  }

  /** One flag a tile: whether so much of it is hidden that its texture cannot be read. */
  public static boolean[] tiles(DamageMap damage, TileGrid grid, DamageTuning tuning) {
    int halo = (int) Math.max(1, Math.round(HALO_UM / damage.cellUm()));
    LabelRaster mask = Morphology.dilate(damage.mask(), halo);
    boolean[] tiles = new boolean[grid.count()];
    int q = FineMap.PER_TILE;
    for (int t = 0; t < tiles.length; t++) {
      int hidden = 0;
      for (int i = 0; i < q; i++) {
        for (int j = 0; j < q; j++) {
          hidden += mask.get(t % grid.columns() * q + j, t / grid.columns() * q + i) == 0 ? 0 : 1;
        }
      }
      tiles[t] = hidden >= tuning.hiddenShare() * q * q;
    }
    return tiles;
  }

  /** One flag a cell: whether the photograph shows nothing there. */
  public static boolean[] missing(PreparedDie die, TileGrid grid) {
    double cell = grid.tilePx() / FineMap.PER_TILE;
    int columns = grid.columns() * FineMap.PER_TILE;
    boolean[] out = new boolean[columns * grid.rows() * FineMap.PER_TILE];
    for (int i = 0; i < out.length; i++) {
      out[i] = die.missing((i % columns + 0.5) * cell, (i / columns + 0.5) * cell);
    }
    return out;
  }

  private static int bin(float grey) {
    return Math.max(0, Math.min(GREY_BINS - 1, (int) (grey * (GREY_BINS / GREY_TOP))));
  }

  private static double quantile(int[] histogram, double share, int count) {
    long below = 0;
    int i = 0;
    while (i < GREY_BINS - 1 && below + histogram[i] <= share * (count - 1)) {
      below += histogram[i++];
    }
    return (i + 0.5) * GREY_TOP / GREY_BINS;
  }

  private static LabelRaster large(LabelRaster spots, int least) {
    Components.Labelling parts = Components.label(spots);
    boolean[] keep = new boolean[parts.components().size() + 1];
    for (Components.Component c : parts.components()) {
      keep[c.id()] = c.cells() >= least;
    }
    byte[] out = new byte[spots.array().length];
    for (int i = 0; i < out.length; i++) {
      out[i] = keep[parts.ids()[i]] ? spots.array()[i] : 0;
    }
    return LabelRaster.over(spots.width(), spots.height(), out);
  }
}
