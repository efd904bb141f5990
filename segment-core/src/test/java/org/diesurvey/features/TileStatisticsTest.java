package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TileStatisticsTest {
  private static double layout(double x, double y) {
    return x % 7.3 < 3 && y % 5.2 < 3 ? 0.62 : 0.34 + 0.05 * Math.sin(x / 40 + y / 90);
  }

  /** A die of a width and height that lies turned in the photograph. */
  private static PreparedDie turned(DrawnSource photo, double deg, int bin) {
    double cos = Math.cos(Math.toRadians(deg));
    double sin = Math.sin(Math.toRadians(deg));
    double w = photo.width() - 40;
    double h = photo.height() - 40;
    List<PixelPoint> corners =
        List.of(
            new PixelPoint(23.4, 17.7),
            new PixelPoint(23.4 + w * cos, 17.7 + w * sin),
            new PixelPoint(23.4 + w * cos - h * sin, 17.7 + w * sin + h * cos),
            new PixelPoint(23.4 - h * sin, 17.7 + h * cos));
    return PreparedDie.of(photo, new DieLocation(true, corners, deg, 0.5), bin);
  }

  private static float[] sums(TileStatistics s, int tileRow) {
    float[] out = new float[SumsBand.PLANES * s.grid().columns()];
    s.row(tileRow, SumsBand.PLANES, out);
    return out;
  }

  /** Filters see all that they reach beyond their band, and bands average the same pixels. */
  @ParameterizedTest(name = "turned by {0} degrees, {1} px averaged, {2} um/px")
  @CsvSource({"0, 1, 0.5", "1.3, 1, 0.4", "0.7, 2, 0.31", "0, 3, 0.6", "0, 1, 4"})
  void heightOfBands_changesNoBit(double deg, int bin, double pitchUm) {
    DrawnSource photo =
        DrawnSource.noisy(150 * bin, 620 * bin, 0.02, 31, TileStatisticsTest::layout);
    PreparedDie die = turned(photo, deg, bin);
    TileGrid grid = new TileGrid(Math.max(8, 3 * pitchUm), pitchUm, die.width(), die.height());
    TileStatistics whole = TileStatistics.of(die, grid, 1000, false);
    for (int rows : new int[] {40, 11, 3}) {
      TileStatistics s = TileStatistics.of(die, grid, rows, false);
      for (int r = 0; r < grid.rows(); r++) {
        assertArrayEquals(sums(whole, r), sums(s, r), rows + " rows, row of tiles " + r);
      }
      for (int r = 0; r < s.fine().rows(); r++) {
        for (int c = 0; c < s.fine().columns(); c++) {
          assertEquals(whole.fine().grey(r, c), s.fine().grey(r, c));
          assertEquals(whole.fine().activity(r, c), s.fine().activity(r, c));
        }
      }
    }
  }

  /** A die that lies straight is read alike in parts of any width. */
  @ParameterizedTest(name = "{0} px averaged, {1} um/px")
  @CsvSource({"1, 0.5", "2, 0.31", "1, 2"})
  void widthOfParts_changesNoBit(int bin, double pitchUm) {
    DrawnSource photo =
        DrawnSource.noisy(700 * bin, 300 * bin, 0.02, 37, TileStatisticsTest::layout);
    PreparedDie die = turned(photo, 0, bin);
    TileGrid grid = new TileGrid(Math.max(8, 3 * pitchUm), pitchUm, die.width(), die.height());
    TileStatistics whole = TileStatistics.inParts(die, grid, 10_000);
    for (int width : new int[] {350 * bin, 128 * bin}) {
      TileStatistics parts = TileStatistics.inParts(die, grid, width);
      for (int r = 0; r < grid.rows(); r++) {
        assertArrayEquals(sums(whole, r), sums(parts, r), width + " px, row of tiles " + r);
      }
      assertEquals(whole.fine().activity(40, 77), parts.fine().activity(40, 77));
    }
  }

  /** A turned one is read to 1/32 px from the left end of each part: its greys differ by little. */
  @Test
  void widthOfParts_changesLittleOfATurnedDie() {
    DrawnSource photo = DrawnSource.noisy(700, 300, 0.02, 37, TileStatisticsTest::layout);
    PreparedDie die = turned(photo, 1.3, 1);
    TileGrid grid = new TileGrid(8, 0.5, die.width(), die.height());
    TileStatistics whole = TileStatistics.inParts(die, grid, 10_000);
    TileStatistics parts = TileStatistics.inParts(die, grid, 200);
    double before = 0;
    double after = 0;
    for (int r = 0; r < grid.rows(); r++) {
      float[] a = sums(whole, r);
      float[] b = sums(parts, r);
      for (int c = 0; c < grid.columns(); c++) {
        int grey = grid.columns() + c;
        assertEquals(a[grey], b[grey], 1e-3 * a[grey], "grey of tile " + r + ", " + c);
        before += a[TextureSums.bandPlane(2, 0) * grid.columns() + c];
        after += b[TextureSums.bandPlane(2, 0) * grid.columns() + c];
      }
    }
    assertEquals(before, after, 0.002 * before, "energy of the die");
  }
}
