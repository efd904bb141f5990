package org.diesurvey.comparison;

import java.util.Arrays;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.DifferenceMap.State;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/**
 * Tells tile by tile whether the structure of two registered dies agrees. Structure is the contrast
 * between about one and six um over its own local strength, after the sharper picture was blurred
 * to the other, so light, tint and focus drop out. What a correlation is worth is judged by the
 * die's own distribution: most of a revision is unchanged.
 */
final class TileAgreement {
  /** Side of a tile, um. */
  private static final double TILE_UM = 8;

  /** Correlation below this share of the typical one is a difference. */
  static final double SHARE_OF_TYPICAL = 0.6;

  /** Where a kind of ground typically correlates less than this, nothing is judged. */
  private static final double LEAST_TYPICAL = 0.35;

  /** Contrast energy over that of noise from which a tile is judged. */
  private static final double CLEAR = 4;

  /** The same for structure that has nothing at its place in the other picture. */
  private static final double APPEARS = 16;

  /** Greys beyond the die's own by this share of their range are dirt or glare. */
  private static final float FOREIGN = 1.5f;

  /** Distances from logic in the two pictures that make a difference. */
  private static final float UNLIKE = 1.4f;

  private static final float LIKE = 0.75f;

  /** Tiles along the die edge that are not judged. */
  private static final int RIM = 3;

  final TileCorrelator tiles;
  final GrayRaster a;
  final GrayRaster b;
  final double tileUm;
  final float[] similarity;
  final byte[] state;
  final double typical;
  final Ground groundA;
  final Ground groundB;
  private final boolean[] hidden;

  TileAgreement(Registrar.Found found, TileClasses classesA, TileClasses classesB, int sidePx) {
    double p = found.pitchUm();
    GrayRaster[] matched = matched(found.finest().a, found.finest().b);
    double fine = Math.max(0.7, 0.8 / p);
    double coarse = Math.max(3, 6 / p);
    this.a = Structure.evened(matched[0], fine, coarse, 16 / p);
    this.b = Structure.evened(matched[1], fine, coarse, 16 / p);
    this.tiles = new TileCorrelator(a, b, sidePx);
    this.tileUm = sidePx * p;
    this.similarity = tiles.best(0, 0, 1);
    Band first =
        new Band(
            similarity,
            TileCorrelator.energy(tiles, Structure.band(matched[0], fine, coarse)),
            TileCorrelator.energy(tiles, Structure.band(matched[1], fine, coarse)));
    Band second = band(matched[0], matched[1], Math.max(1.5, 2.5 / p), Math.max(5, 10 / p), 24 / p);
    boolean[] seen = seen(found.finest().seen, a.width(), sidePx);
    this.hidden = hidden(found.finest(), classesA, classesB, sidePx);
    this.state = new byte[tiles.count()];
    this.typical = judge(List.of(first, second), seen, classesA, classesB);
    boolean[] logic = new boolean[state.length];
    for (int i = 0; i < logic.length; i++) {
      logic[i] =
          state[i] == State.SAME.ordinal()
              && classesA.at(i) == DieClass.LOGIC
              && classesB.at(i) == DieClass.LOGIC;
    }
    this.groundA = Ground.of(tiles, matched[0], logic);
    this.groundB = Ground.of(tiles, matched[1], logic);
    judgeByGround(classesA, classesB);
  }

  static int sidePx(double pitchUm) {
    return Math.max(5, (int) Math.round(TILE_UM / pitchUm));
  }

  /** The sharper one blurred until its finest contrasts are to the coarse ones as in the other. */
  private static GrayRaster[] matched(GrayRaster a, GrayRaster b) {
    double target = Math.min(sharpness(a), sharpness(b));
    return new GrayRaster[] {blurredTo(a, target), blurredTo(b, target)};
  }

  private static GrayRaster blurredTo(GrayRaster in, double target) {
    if (sharpness(in) <= 1.1 * target) {
      return in;
    }
    GrayRaster out = in;
    for (double s = 0.3; s <= 3 && sharpness(out) > target; s += 0.15) {
      out = ImageFilters.gaussian(in, s);
    }
    return out;
  }

  /** Median over blocks of the share of fine contrast in all contrast. */
  private static double sharpness(GrayRaster in) {
    int block = 48;
    int stepX = Math.max(block, in.width() / 10);
    int stepY = Math.max(block, in.height() / 10);
    double[] out = new double[200];
    int n = 0;
    for (int y = 8; y + block < in.height() - 8; y += stepY) {
      for (int x = 8; x + block < in.width() - 8 && n < out.length; x += stepX) {
        GrayRaster cut = PatchMatcher.cut(in, x, y, block, block);
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

  /** What one band of scales says of each tile; a class because of its arrays. */
  private static final class Band {
    final float[] correlation;
    final float[] energyA;
    final float[] energyB;

    Band(float[] correlation, float[] energyA, float[] energyB) {
      this.correlation = correlation;
      this.energyA = energyA;
      this.energyB = energyB;
    }
  }

  private Band band(GrayRaster x, GrayRaster y, double fine, double coarse, double window) {
    GrayRaster ex = Structure.evened(x, fine, coarse, window);
    GrayRaster ey = Structure.evened(y, fine, coarse, window);
    return new Band(
        new TileCorrelator(ex, ey, tiles.side).best(0, 0, 1),
        TileCorrelator.energy(tiles, Structure.band(x, fine, coarse)),
        TileCorrelator.energy(tiles, Structure.band(y, fine, coarse)));
  }

  /** What does not agree where least disagrees: the noise of the picture. */
  private static double noise(float[] energy, float[] correlation, boolean[] seen) {
    float[] v = new float[energy.length];
    for (int i = 0; i < v.length; i++) {
      v[i] = energy[i] * (1 - Math.max(0, correlation[i]));
    }
    return quantile(v, seen, 0.25);
  }

  private double judge(
      List<Band> bands, boolean[] seen, TileClasses classesA, TileClasses classesB) {
    int n = tiles.count();
    int[] high = new int[n];
    int[] low = new int[n];
    boolean[] fineOnly = new boolean[n];
    double typicalOfFine = 0;
    for (int k = 0; k < bands.size(); k++) {
      Band b = bands.get(k);
      double noiseA = noise(b.energyA, b.correlation, seen);
      double noiseB = noise(b.energyB, b.correlation, seen);
      boolean[] both = new boolean[n];
      for (int i = 0; i < n; i++) {
        both[i] = seen[i] && b.energyA[i] > CLEAR * noiseA && b.energyB[i] > CLEAR * noiseB;
      }
      double all = quantile(b.correlation, both, 0.6);
      typicalOfFine = k == 0 ? all : typicalOfFine;
      double[] expected = byClass(b.correlation, both, classesA, all);
      for (int i = 0; i < n; i++) {
        double e = expected[classesA.at(i).code()];
        if (both[i] && e >= LEAST_TYPICAL) {
          boolean differs = b.correlation[i] < SHARE_OF_TYPICAL * e;
          low[i] += differs ? 1 : 0;
          high[i] += differs ? 0 : 1;
          fineOnly[i] |= differs && k == 0;
        } else if (seen[i]) {
          boolean appears = b.energyB[i] > APPEARS * noiseB && b.energyA[i] <= CLEAR * noiseA;
          boolean vanishes = b.energyA[i] > APPEARS * noiseA && b.energyB[i] <= CLEAR * noiseB;
          low[i] += appears || vanishes ? 1 : 0;
        }
      }
    }
    for (int i = 0; i < n; i++) {
      boolean lattice =
          fineOnly[i]
              && low[i] == 1
              && classesA.at(i) == DieClass.MEMORY_ARRAY
              && classesB.at(i) == DieClass.MEMORY_ARRAY;
      State s;
      if (!seen[i]) {
        s = State.NOT_COMMON;
      } else if (rim(i) || hidden[i]) {
        s = State.NOT_JUDGED;
      } else if (low[i] > 0 && high[i] == 0) {
        // A bit-cell lattice finer than the sampling shows moire, which differs by photograph.
        s = lattice ? State.NOT_JUDGED : State.DIFFERENT;
      } else {
        s = high[i] > 0 ? State.SAME : State.NOT_JUDGED;
      }
      state[i] = (byte) s.ordinal();
    }
    return typicalOfFine;
  }

  /** Where correlation cannot judge, what looks like logic in one picture only differs. */
  private void judgeByGround(TileClasses classesA, TileClasses classesB) {
    for (int i = 0; i < state.length && groundA.known() && groundB.known(); i++) {
      boolean ring = classesA.at(i) == DieClass.PAD_RING || classesB.at(i) == DieClass.PAD_RING;
      if (state[i] == State.NOT_JUDGED.ordinal() && !rim(i) && !hidden[i] && !ring) {
        float less = Math.min(groundA.at(i), groundB.at(i));
        float more = Math.max(groundA.at(i), groundB.at(i));
        if (more >= UNLIKE && less <= LIKE) {
          state[i] = (byte) State.DIFFERENT.ordinal();
        }
      }
    }
  }

  /**
   * Where a picture shows something that is no layout: damage that a survey names, and greys far
   * outside those of the die. Grown by the reach of a window.
   */
  private boolean[] hidden(
      Registrar.Finest f, TileClasses classesA, TileClasses classesB, int side) {
    boolean[] out = new boolean[tiles.count()];
    for (int i = 0; i < out.length; i++) {
      out[i] = classesA.damaged(i) || classesB.damaged(i);
    }
    for (GrayRaster r : List.of(f.a, f.b)) {
      float[] sample = new float[r.array().length / 37 + 1];
      int n = 0;
      for (int i = 0; i < r.array().length; i += 37) {
        if (f.seen[i]) {
          sample[n++] = r.array()[i];
        }
      }
      Arrays.sort(sample, 0, n);
      float low = sample[n / 20];
      float high = sample[n - 1 - n / 20];
      float span = Math.max(1e-3f, high - low);
      for (int y = 0; y < tiles.rows * side; y++) {
        for (int x = 0; x < tiles.columns * side; x++) {
          float v = r.array()[y * r.width() + x];
          if (v < low - FOREIGN * span || v > high + FOREIGN * span) {
            out[y / side * tiles.columns + x / side] = true;
          }
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

  private static double[] byClass(
      float[] correlation, boolean[] both, TileClasses classesA, double all) {
    double[] out = new double[256];
    Arrays.fill(out, all);
    for (DieClass c : DieClass.values()) {
      boolean[] of = new boolean[both.length];
      int count = 0;
      for (int i = 0; i < of.length; i++) {
        of[i] = both[i] && classesA.at(i) == c;
        count += of[i] ? 1 : 0;
      }
      if (count > 100) {
        // Most of a class may have changed, so it never counts as worse than half the rest.
        out[c.code()] = Math.max(0.5 * all, quantile(correlation, of, 0.6));
      }
    }
    return out;
  }

  static double quantile(float[] v, boolean[] use, double q) {
    float[] sorted = new float[v.length];
    int n = 0;
    for (int i = 0; i < v.length; i++) {
      if (use[i]) {
        sorted[n++] = v[i];
      }
    }
    if (n == 0) {
      return 0;
    }
    Arrays.sort(sorted, 0, n);
    return sorted[(int) Math.min(n - 1, q * n)];
  }

  boolean[] is(State s) {
    boolean[] out = new boolean[state.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = state[i] == s.ordinal();
    }
    return out;
  }
}
