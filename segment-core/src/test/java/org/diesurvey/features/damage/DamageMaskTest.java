package org.diesurvey.features.damage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Damage of known place and size on a drawn surface. */
class DamageMaskTest {
  private static final int SIDE = 800;

  private static GrayRaster surface() {
    Random random = new Random(3);
    GrayRaster g = new GrayRaster(SIDE, SIDE);
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        boolean device = x % 40 < 16 && y % 56 < 24;
        g.set(x, y, (float) (0.35 + (device ? 0.1 : 0) + 0.02 * random.nextGaussian()));
      }
    }
    return g;
  }

  private static void island(GrayRaster g, double cx, double cy, double r, double level) {
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        double a = Math.atan2(y - cy, x - cx);
        double rim = r * (1 + 0.15 * Math.sin(3 * a + 1) + 0.08 * Math.sin(7 * a));
        if (Math.hypot(x - cx, y - cy) < rim) {
          g.set(x, y, (float) level);
        }
      }
    }
  }

  private static DamageMap find(GrayRaster g) {
    TileGrid grid = new TileGrid(8, 0.5, SIDE, SIDE);
    FineMap fine = new FineMap(grid);
    fine.fill(g, 0, 0, new PixelRect(0, 0, grid.columns(), grid.rows()));
    return DamageMask.find(fine, DamageTuning.DEFAULT);
  }

  private static double share(DamageMap m) {
    return m.places().stream().mapToInt(DamageMap.Place::cells).sum()
        / ((double) m.columns() * m.rows());
  }

  @Test
  void cleanSurface_hasNoDamage() {
    assertEquals(0, find(surface()).places().size());
  }

  /** Far more than the two hundredths that a rule on the picture's own extremes could bear. */
  @Test
  void residueOfATenthOfTheDie_isFound() {
    GrayRaster g = surface();
    island(g, 250, 300, 110, 0.85);
    island(g, 560, 520, 90, 0.85);
    double truth = 0;
    for (float v : g.array()) {
      truth += v > 0.8 ? 1.0 / g.array().length : 0;
    }
    assertTrue(truth > 0.08, "drawn " + truth);
    DamageMap m = find(g);
    assertEquals(truth, share(m), 0.1 * truth);
    assertEquals(2, m.places().size());
    m.places().forEach(p -> assertEquals(DamageKind.BRIGHT, p.kind()));
  }

  /** A lattice of 5 x 7 um under a lamp's reflection: its core is clipped, its skirt is not. */
  private static GrayRaster glare(double coreUm, double skirtUm) {
    Random random = new Random(3);
    GrayRaster g = new GrayRaster(SIDE, SIDE);
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        double r = Math.hypot(x - 400, y - 380) / 2;
        double glow = r < coreUm ? 1 : Math.exp(-Math.pow((r - coreUm) / skirtUm, 2));
        double layer = 0.3 + (x % 10 < 5 && y % 14 < 7 ? 0.1 : 0) + 0.01 * random.nextGaussian();
        g.set(x, y, (float) Math.min(1, layer + 0.9 * glow));
      }
    }
    return g;
  }

  @Test
  void glareHidesItsCore_notTheLatticeInItsSkirt() {
    DamageMap m = find(glare(20, 60));
    // All is clipped up to 20 + 60 x root(ln(0.9 / 0.7)) = 50 um, only the devices up to 58 um.
    double hidden = share(m) * SIDE * SIDE / 4;
    assertTrue(hidden > 0.9 * Math.PI * 50 * 50, hidden + " um2");
    assertTrue(hidden < Math.PI * 60 * 60, hidden + " um2");
    assertEquals(DamageKind.BRIGHT, m.at(95, 100).orElseThrow());
  }

  /** The same with hard edges hides all of it. */
  @Test
  void residueWithAHardEdge_hidesAllOfIt() {
    DamageMap m = find(glare(60, 1));
    double all = Math.PI * 61 * 61;
    assertEquals(all, share(m) * SIDE * SIDE / 4, 0.07 * all);
  }

  @Test
  void brightDevicesOfTheLayer_areNoDamage() {
    GrayRaster g = surface();
    for (int y = 100; y < 500; y++) {
      for (int x = 100; x < 560; x++) {
        if (x % 80 < 44 && y % 100 < 60) {
          g.set(x, y, 0.7f);
        }
      }
    }
    assertTrue(share(find(g)) < 0.005, "share " + share(find(g)));
  }

  @Test
  void darkDust_isFoundAndTold() {
    GrayRaster g = surface();
    island(g, 400, 200, 16, 0.05);
    DamageMap m = find(g);
    assertEquals(1, m.places().size());
    assertEquals(DamageKind.DARK, m.places().get(0).kind());
    assertEquals(DamageKind.DARK, m.at(50, 100).orElseThrow());
  }

  @Test
  void thinLongPlace_isAScratch() {
    LabelRaster mask = new LabelRaster(100, 100);
    for (int i = 10; i < 80; i++) {
      mask.set(i, 20 + i / 2, 1);
      mask.set(i, 21 + i / 2, 1);
    }
    DamageMap m = DamageMap.of(mask, 2);
    assertEquals(1, m.places().size());
    assertEquals(DamageKind.SCRATCH, m.places().get(0).kind());
  }
}
