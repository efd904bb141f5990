package org.diesurvey.comparison.tiles;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.util.KthSelector;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.registration.PatchMatcher;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.registration.Structure;
import org.diesurvey.comparison.tiles.DifferenceMap.State;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/**
 * Tells tile by tile whether the structure of two registered dies agrees: log odds of change from
 * {@link TileChangeFeatures}, after the sharper picture was blurred to the other, so light, tint
 * and focus drop out.
 */
public final class TileComparison {
  /** Side of a tile, um. */
  private static final double TILE_UM = 8;

  /** No tile counts as more certain than this, log odds. */
  private static final double MOST_ODDS = 6;

  /** Log of contrast energy over that of noise from which unchanged ground counts as judged. */
  private static final double CLEAR = Math.log(4);

  /** Greys beyond the die's own by this share of their range are dirt or glare. */
  private static final float FOREIGN = 1;

  /** Share of the greys beyond those that span the die's range, on each side. */
  private static final int OUTER = 50;

  /** Tiles of foreign grey that are no dirt: a block may be brighter than all else. */
  private static final int LARGE_TILES = 30;

  /** Tiles along the die edge that are not judged. */
  private static final int RIM = 3;

  public final TileCorrelator tiles;
  public final GrayRaster a;
  public final GrayRaster b;
  public final double tileUm;
  public final float[] similarity;
  public final byte[] state;
  public final double typical;
  public final OfBoth<TileLooks> looks;
  public final TileChangeFeatures evidence;
  public final OfBoth<LogicDistance> ground;

  /** Log odds of change; the least where a tile is not judged. */
  public final float[] odds;

  private final boolean[] hidden;

  public TileComparison(
      Registrar.Found found,
      OfBoth<TileClasses> classes,
      OfBoth<TileLooks> looks,
      TileChangeClassifier network,
      int sidePx) {
    double p = found.pitchUm();
    GrayRaster[] matched = matched(found.finest().a, found.finest().b);
    double fine = Math.max(0.7, 0.8 / p);
    double coarse = Math.max(3, 6 / p);
    this.looks = looks;
    GrayRaster[] bands = Structure.each(r -> Structure.band(r, fine, coarse), matched);
    GrayRaster[] even = Structure.each(r -> Structure.even(copy(r), 16 / p), bands);
    this.a = even[0];
    this.b = even[1];
    this.tiles = new TileCorrelator(a, b, sidePx);
    this.tileUm = sidePx * p;
    boolean[] seen = seen(found.finest().seen, a.width(), sidePx);
    this.hidden = hidden(found.finest(), classes, sidePx);
    boolean[] use = seen.clone();
    for (int i = 0; i < use.length; i++) {
      use[i] &= !rim(i) && !hidden[i];
    }
    double[][][] figures =
        Arrays.stream(matched)
            .parallel()
            .map(r -> LogicDistance.figures(tiles, r))
            .toArray(double[][][]::new);
    this.evidence = new TileChangeFeatures(tiles, matched, bands, figures, p, seen, use, looks);
    this.similarity = evidence.correlation[0];
    this.typical = evidence.typical[0];
    this.odds = evidence.odds(network, MOST_ODDS);
    for (int i = 0; i < odds.length; i++) {
      odds[i] = use[i] ? odds[i] : (float) -MOST_ODDS;
    }
    this.state = states(seen, use);
    boolean[] logic = new boolean[state.length];
    for (int i = 0; i < logic.length; i++) {
      logic[i] =
          state[i] == State.SAME.ordinal() && TileLooks.joint(looks, i) == SurfaceClass.CELL_ROWS;
    }
    LogicDistance[] grounds =
        Arrays.stream(figures)
            .parallel()
            .map(f -> LogicDistance.of(tiles, f, logic))
            .toArray(LogicDistance[]::new);
    this.ground = new OfBoth<>(grounds[0], grounds[1]);
  }

  /** Whether both pictures show the tile, away from the rim and from what hides it. */
  public boolean judged(int tile) {
    return state[tile] != State.NOT_COMMON.ordinal() && !rim(tile) && !hidden[tile];
  }

  private byte[] states(boolean[] seen, boolean[] use) {
    float[] around = tiles.windows(odds);
    byte[] out = new byte[tiles.count()];
    for (int i = 0; i < out.length; i++) {
      float clear = -9;
      for (int k = 0; k < 3; k++) {
        clear =
            Math.max(
                clear, Math.min(evidence.clearness[2 * k][i], evidence.clearness[2 * k + 1][i]));
      }
      State s = clear > CLEAR ? State.SAME : State.NOT_JUDGED;
      s = around[i] > 0 ? State.DIFFERENT : s;
      s = use[i] ? s : seen[i] ? State.NOT_JUDGED : State.NOT_COMMON;
      out[i] = (byte) s.ordinal();
    }
    return out;
  }

  public static int sidePx(double pitchUm) {
    return Math.max(5, (int) Math.round(TILE_UM / pitchUm));
  }

  /** The sharper one blurred until its finest contrasts are to the coarse ones as in the other. */
  private static GrayRaster[] matched(GrayRaster a, GrayRaster b) {
    double target = Math.min(sharpness(a), sharpness(b));
    return Structure.each(r -> blurredTo(r, target), a, b);
  }

  private static GrayRaster copy(GrayRaster in) {
    return GrayRaster.over(in.width(), in.height(), in.array().clone());
  }

  private static GrayRaster blurredTo(GrayRaster in, double target) {
    if (sharpness(in) <= 1.1 * target) {
      return in;
    }
    double by = 0;
    for (double s = 0.3; s <= 3 && sharpness(in, by) > target; s += 0.15) {
      by = s;
    }
    return by > 0 ? ImageFilters.gaussian(in, by) : in;
  }

  private static double sharpness(GrayRaster in) {
    return sharpness(in, 0);
  }

  /** Median over blocks of the share of fine contrast in all contrast, after a blur, px. */
  private static double sharpness(GrayRaster in, double blur) {
    int block = 48;
    int stepX = Math.max(block, in.width() / 10);
    int stepY = Math.max(block, in.height() / 10);
    double[] out = new double[200];
    int n = 0;
    for (int y = 8; y + block < in.height() - 8; y += stepY) {
      for (int x = 8; x + block < in.width() - 8 && n < out.length; x += stepX) {
        GrayRaster cut = PatchMatcher.cut(in, x, y, block, block);
        if (blur > 0) {
          int room = (int) Math.ceil(4 * blur) + 1;
          int wide = block + 2 * room;
          GrayRaster around = PatchMatcher.cut(in, x - room, y - room, wide, wide);
          GrayRaster soft = ImageFilters.gaussian(around, blur);
          cut = PatchMatcher.cut(soft, room, room, block, block);
        }
        double fine = energy(Structure.band(cut, 0.6, 1.2));
        double wide = energy(Structure.band(cut, 1.2, 4.8));
        out[n++] = fine / (wide + 1e-12);
      }
    }
    double[] sorted = Arrays.copyOf(out, n);
    Arrays.sort(sorted);
    return n == 0 ? 1 : sorted[n / 2];
  }

  private static double energy(GrayRaster in) {
    double sum = 0;
    for (float v : in.array()) {
      sum += (double) v * v;
    }
    return sum;
  }

  private boolean[] seen(boolean[] pixels, int width, int side) {
    boolean[] out = new boolean[tiles.count()];
    for (int i = 0; i < out.length; i++) {
      int x = i % tiles.columns * side;
      int y = i / tiles.columns * side;
      out[i] =
          pixels[y * width + x]
              && pixels[(y + side - 1) * width + x + side - 1]
              && pixels[y * width + x + side - 1]
              && pixels[(y + side - 1) * width + x];
    }
    return out;
  }

  /**
   * Where a picture shows something that is no layout: damage that a survey names, and greys far
   * outside those of the die. Grown by the reach of a window.
   */
  private boolean[] hidden(Registrar.Finest f, OfBoth<TileClasses> classes, int side) {
    boolean[] out = new boolean[tiles.count()];
    for (int i = 0; i < out.length; i++) {
      out[i] = classes.first().damaged(i) || classes.second().damaged(i);
    }
    for (GrayRaster r : List.of(f.a, f.b)) {
      boolean[] foreign = new boolean[out.length];
      float[] sample = new float[r.array().length / 37 + 1];
      int n = 0;
      for (int i = 0; i < r.array().length; i += 37) {
        if (f.seen[i]) {
          sample[n++] = r.array()[i];
        }
      }
      Arrays.sort(sample, 0, n);
      float low = sample[n / OUTER];
      float high = sample[n - 1 - n / OUTER];
      float span = Math.max(1e-3f, high - low);
      for (int y = 0; y < tiles.rows * side; y++) {
        for (int x = 0; x < tiles.columns * side; x++) {
          float v = r.array()[y * r.width() + x];
          if (v < low - FOREIGN * span || v > high + FOREIGN * span) {
            foreign[y / side * tiles.columns + x / side] = true;
          }
        }
      }
      for (TileSet part : TileSet.parts(foreign, tiles.columns)) {
        for (int i = 0; i < out.length; i++) {
          out[i] |= part.count() < LARGE_TILES && part.mask()[i];
        }
      }
    }
    return TileSet.grown(out, tiles.columns, 2);
  }

  /** The sawn edge chips, and windows end there. */
  private boolean rim(int i) {
    int c = i % tiles.columns;
    int r = i / tiles.columns;
    return c < RIM || r < RIM || c >= tiles.columns - RIM || r >= tiles.rows - RIM;
  }

  static double quantile(float[] v, boolean[] use, double q) {
    double[] of = new double[v.length];
    int n = 0;
    for (int i = 0; i < v.length; i++) {
      if (use[i]) {
        of[n++] = v[i];
      }
    }
    int k = (int) Math.min(n - 1, q * n);
    return n == 0 ? 0 : new KthSelector().select(Arrays.copyOf(of, n), null, k);
  }

  public boolean[] is(State s) {
    boolean[] out = new boolean[state.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = state[i] == s.ordinal();
    }
    return out;
  }
}
