package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.ImageFilters;
import org.junit.jupiter.api.Test;

class TextureSumsTest {
  private static final int SIDE = 96;

  private static GrayRaster random(int width, int height) {
    SplittableRandom random = new SplittableRandom(23);
    GrayRaster g = new GrayRaster(width, height);
    for (int i = 0; i < g.array().length; i++) {
      int x = i % width;
      int y = i / width;
      double smooth = 0.1 * Math.sin(x / 5.0) * Math.sin(y / 7.0);
      g.array()[i] = (float) (0.4 + smooth + (random.nextInt(5) == 0 ? 0.2 : 0));
    }
    return g;
  }

  private static float[][] sums(GrayRaster g, int firstRow, TileGrid grid, int from, int to) {
    return sums(g, firstRow, grid, 1, new LevelPart.Tiles(from, to, 0, grid.columns()));
  }

  /** Planes over all tiles of the grid; 0 for those that are not asked for. */
  private static float[][] sums(
      GrayRaster g, int firstRow, TileGrid grid, int reduction, LevelPart.Tiles tiles) {
    SumsBand band = new SumsBand(grid, 0, grid.rows());
    TextureSums.sum(new LevelPart(g, 0, firstRow, reduction), grid, tiles, band);
    return IntStream.range(0, TextureSums.planes()).mapToObj(band::plane).toArray(float[][]::new);
  }

  /** Planes of all levels of a whole raster. */
  private static float[][] whole(GrayRaster g, TileGrid grid) {
    float[][] all = new float[TextureSums.planes()][grid.count()];
    GrayRaster reduced = g;
    for (int reduction = 1; reduction <= 16; reduction *= 2) {
      float[][] some = sums(reduced, 0, grid, reduction, LevelPart.Tiles.all(grid));
      for (int p = 0; p < all.length; p++) {
        for (int t = 0; t < grid.count(); t++) {
          all[p][t] += some[p][t];
        }
      }
      reduced = ImageFilters.reduce(reduced, reduced.width() / 2, reduced.height() / 2);
    }
    return all;
  }

  /** A Gaussian as a plain sum over four standard deviations, in double precision. */
  private static double[] gaussian(GrayRaster g, double sigma) {
    int w = g.width();
    int h = g.height();
    int reach = (int) Math.ceil(4 * sigma);
    double[] weight = new double[2 * reach + 1];
    double total = 0;
    for (int k = -reach; k <= reach; k++) {
      weight[k + reach] = Math.exp(-k * k / (2 * sigma * sigma));
      total += weight[k + reach];
    }
    double[] across = new double[w * h];
    for (int i = 0; i < across.length; i++) {
      for (int k = -reach; k <= reach; k++) {
        int x = Math.max(0, Math.min(w - 1, i % w + k));
        across[i] += weight[k + reach] / total * g.get(x, i / w);
      }
    }
    double[] out = new double[w * h];
    for (int i = 0; i < out.length; i++) {
      for (int k = -reach; k <= reach; k++) {
        int y = Math.max(0, Math.min(h - 1, i / w + k));
        out[i] += weight[k + reach] / total * across[y * w + i % w];
      }
    }
    return out;
  }

  /** Tiles away from the border, so that the treatment of borders does not matter. */
  @Test
  void momentsOfABand_equalPlainSums() {
    GrayRaster g = random(SIDE, SIDE);
    TileGrid grid = new TileGrid(9, 0.5, SIDE, SIDE);
    float[][] planes = sums(g, 0, grid, 0, grid.rows());
    int band = 1;
    double sigma = TextureSums.BAND_UM[band] / 0.5;
    double[] inner = gaussian(g, sigma);
    double[] outer = gaussian(g, 2 * sigma);
    for (int r = 1; r < grid.rows() - 2; r++) {
      for (int c = 1; c < grid.columns() - 2; c++) {
        double[] m = new double[3];
        for (int y = grid.start(r, 1, SIDE); y < grid.start(r + 1, 1, SIDE); y++) {
          for (int x = grid.start(c, 1, SIDE); x < grid.start(c + 1, 1, SIDE); x++) {
            double d = inner[y * SIDE + x] - outer[y * SIDE + x];
            for (int k = 0; k < 3; k++) {
              m[k] += Math.pow(d, k + 2);
            }
          }
        }
        int t = r * grid.columns() + c;
        for (int k = 0; k < 3; k++) {
          double is = planes[TextureSums.bandPlane(band, k)][t];
          assertEquals(m[k], is, 0.02 * Math.abs(m[k]) + 2e-5, "tile " + t + " moment " + k);
        }
      }
    }
  }

  @Test
  void plainSums_countEveryPixelOnce() {
    GrayRaster g = random(SIDE, SIDE);
    TileGrid grid = new TileGrid(8, 0.7, SIDE, SIDE);
    float[][] planes = sums(g, 0, grid, 0, grid.rows());
    double sum = 0;
    double square = 0;
    for (float v : g.array()) {
      sum += v;
      square += v * v;
    }
    assertEquals(SIDE * SIDE, total(planes[0]), 1e-6);
    assertEquals(sum, total(planes[1]), 1e-2);
    assertEquals(square, total(planes[2]), 1e-2);
  }

  private static double total(float[] plane) {
    double sum = 0;
    for (float v : plane) {
      sum += v;
    }
    return sum;
  }

  /**
   * One cosine of wavelength L passes a Gaussian of deviation s with the factor exp(-2 (pi s /
   * L)^2) (its Fourier transform), so the mean square after both filters is known. 40 px at 0.5
   * um/px.
   */
  @Test
  void energyOfACosine_isThatOfTheFiltersTransform() {
    GrayRaster g = new GrayRaster(320, 320);
    double waveUm = 20;
    for (int i = 0; i < g.array().length; i++) {
      g.array()[i] = (float) (0.5 + 0.2 * Math.cos(2 * Math.PI * (i % 320 + 0.5) * 0.5 / waveUm));
    }
    TileGrid grid = new TileGrid(20, 0.5, 320, 320);
    float[][] planes = whole(g, grid);
    int t = 4 * grid.columns() + 4;
    for (int band = 0; band < TextureSums.BAND_UM.length; band++) {
      double s = TextureSums.BAND_UM[band];
      double pass =
          average(AVERAGED_PX[band], waveUm / 0.5)
              * (transform(s, waveUm) - transform(2 * s, waveUm));
      double expected = 0.5 * 0.04 * pass * pass;
      double is = planes[TextureSums.bandPlane(band, 0)][t] / planes[0][t];
      assertEquals(expected, is, 0.03 * expected, "band " + s + " um");
    }
  }

  /** Pixels that are averaged before the filters of each band, at 0.5 um/px. */
  private static final int[] AVERAGED_PX = {1, 1, 2, 4, 8};

  /** What a mean over n px leaves of a cosine. */
  private static double average(int n, double wavePx) {
    return Math.sin(Math.PI * n / wavePx) / (n * Math.sin(Math.PI / wavePx));
  }

  private static double transform(double sigma, double wave) {
    return Math.exp(-2 * Math.pow(Math.PI * sigma / wave, 2));
  }

  /** Where a part is cut must not show. */
  @Test
  void partCutAnywhere_givesTheSameBits() {
    GrayRaster whole = random(200, 400);
    TileGrid grid = new TileGrid(8, 1, 200, 400);
    float[][] all = sums(whole, 0, grid, 0, grid.rows());
    for (int first : new int[] {77, 78, 79, 81}) {
      int left = first - 20;
      GrayRaster cut = new GrayRaster(103, 300 - first);
      for (int y = 0; y < cut.height(); y++) {
        System.arraycopy(
            whole.array(), (first + y) * 200 + left, cut.array(), y * 103, cut.width());
      }
      SumsBand band = new SumsBand(grid, 22, 25);
      LevelPart.Tiles tiles = new LevelPart.Tiles(22, 25, 11, 15);
      TextureSums.sum(new LevelPart(cut, left, first, 1), grid, tiles, band);
      for (int p = 0; p < all.length; p++) {
        for (int r = 22; r < 25; r++) {
          for (int c = 11; c < 15; c++) {
            assertEquals(
                all[p][r * grid.columns() + c],
                band.plane(p)[band.at(r, c)],
                "plane " + p + " first row " + first);
          }
        }
      }
    }
  }

  /** Round dots on a grid of 12 px: one bright spot each, no dark ones inside them. */
  @Test
  void brightDots_areCounted() {
    GrayRaster g = new GrayRaster(240, 240);
    for (int i = 0; i < g.array().length; i++) {
      double dx = i % 240 % 12 - 5.5;
      double dy = i / 240 % 12 - 5.5;
      g.array()[i] = (float) (0.3 + 0.4 * Math.exp(-(dx * dx + dy * dy) / 8));
    }
    TileGrid grid = new TileGrid(24, 1, 240, 240);
    float[][] planes = sums(g, 0, grid, 0, grid.rows());
    int t = 4 * grid.columns() + 4;
    assertEquals(4, planes[TextureSums.spotPlane(0, 0)][t]);
  }

  /** Lines along y have gradients along x only. */
  @Test
  void verticalLines_haveGradientsAcrossThem() {
    GrayRaster g = new GrayRaster(SIDE, SIDE);
    for (int i = 0; i < g.array().length; i++) {
      g.array()[i] = i % SIDE % 8 < 4 ? 0.6f : 0.3f;
    }
    TileGrid grid = new TileGrid(8, 0.5, SIDE, SIDE);
    float[][] planes = whole(g, grid);
    int t = 2 * grid.columns() + 2;
    for (int scale = 0; scale < 2; scale++) {
      assertTrue(planes[TextureSums.gradientPlane(scale, 0)][t] > 1e-6);
      assertEquals(0, planes[TextureSums.gradientPlane(scale, 1)][t], 1e-9);
    }
  }

  @Test
  void bandFinerThanTheSampling_isAbsent() {
    assertTrue(TextureSums.bandPresent(0, 1));
    assertTrue(!TextureSums.bandPresent(0, 1.2));
    float[][] planes = sums(random(64, 64), 0, new TileGrid(16, 2, 64, 64), 0, 8);
    assertEquals(0, total(planes[TextureSums.bandPlane(0, 0)]));
    assertTrue(total(planes[TextureSums.bandPlane(1, 0)]) > 0);
  }
}
