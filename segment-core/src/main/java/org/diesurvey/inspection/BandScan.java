package org.diesurvey.inspection;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/**
 * One pass over all rows of a photograph in bands, several at a time: steps of grey, the 8 x 8 grid
 * of JPEG, clipped samples, and a reduced picture. Memory: one band for each thread.
 */
final class BandScan {
  private static final int BAND_ROWS = 128;

  /** Long side of the reduced picture, px, at most. */
  private static final int REDUCED_PX = 1200;

  /** Highest level, of 0 to 255, that counts as clipped to black; JPEG ripples by one level. */
  static final int BLACK_LEVEL = 1;

  /** Lowest level, of 0 to 255, that counts as clipped to white in any channel. */
  static final int WHITE_LEVEL = 254;

  private final PixelSource photo;
  private final DieLocation frame;
  private final int factor;
  private final int bandRows;
  private final StepField columns;
  private final StepField rows;
  private final GrayRaster reduced;
  private final BlockGrid[] grids;
  private final long[][] counts;

  private BandScan(PixelSource photo, DieLocation frame) {
    this.photo = photo;
    this.frame = frame;
    int longest = Math.max(photo.width(), photo.height());
    factor = (longest + REDUCED_PX - 1) / REDUCED_PX;
    bandRows = factor * Math.max(1, BAND_ROWS / factor);
    int bands = (photo.height() + bandRows - 1) / bandRows;
    columns = new StepField(bands, photo.width());
    rows = new StepField(Math.max(1, photo.width() / StepScan.STRETCH_PX), photo.height());
    reduced =
        new GrayRaster(Math.max(1, photo.width() / factor), Math.max(1, photo.height() / factor));
    grids = new BlockGrid[bands];
    counts = new long[bands][];
  }

  /** */
  static BandScan of(PixelSource photo, DieLocation frame) {
    BandScan scan = new BandScan(photo, frame);
    IntStream.range(0, scan.grids.length).parallel().forEach(scan::band);
    return scan;
  }

  private void band(int b) {
    int w = photo.width();
    int first = b * bandRows;
    int n = Math.min(bandRows, photo.height() - first);
    float[] band = new float[(n + 4) * w];
    int top = Math.max(0, first - 2);
    int bottom = Math.min(photo.height(), first + n + 2);
    float[] inner = new float[(bottom - top) * w];
    photo.readGray(new PixelRect(0, top, w, bottom - top), inner);
    System.arraycopy(inner, 0, band, (top - first + 2) * w, inner.length);
    StepScan steps = new StepScan(band, w, n);
    steps.columns(columns, b);
    steps.rows(rows, first, photo.height());
    grids[b] = BlockGrid.of(band, w, first, n);
    counts[b] = clipped(first, n);
    reduce(band, first, n);
  }

  private long[] clipped(int first, int n) {
    int w = photo.width();
    int[] row = new int[w];
    long seen = 0;
    long black = 0;
    long white = 0;
    for (int y = first; y < first + n; y++) {
      int[] span = span(frame, y + 0.5, w);
      if (span[1] <= span[0]) {
        continue;
      }
      int length = span[1] - span[0];
      photo.readRgb(new PixelRect(span[0], y, length, 1), row);
      for (int i = 0; i < length; i++) {
        int r = row[i] >> 16 & 0xff;
        int g = row[i] >> 8 & 0xff;
        int k = row[i] & 0xff;
        black += Math.max(r, Math.max(g, k)) <= BLACK_LEVEL ? 1 : 0;
        white += Math.max(r, Math.max(g, k)) >= WHITE_LEVEL ? 1 : 0;
      }
      seen += length;
    }
    return new long[] {seen, black, white};
  }

  /** First column on the die and first behind it, in a row; the whole row without a die edge. */
  static int[] span(DieLocation frame, double y, int width) {
    if (!frame.edgeFound()) {
      return new int[] {0, width};
    }
    double low = Double.MAX_VALUE;
    double high = -Double.MAX_VALUE;
    for (int i = 0; i < 4; i++) {
      PixelPoint a = frame.corners().get(i);
      PixelPoint b = frame.corners().get((i + 1) % 4);
      if (a.y() <= y != b.y() <= y) {
        double x = a.x() + (y - a.y()) / (b.y() - a.y()) * (b.x() - a.x());
        low = Math.min(low, x);
        high = Math.max(high, x);
      }
    }
    return low > high
        ? new int[] {0, 0}
        : new int[] {
          Math.max(0, Math.min(width, (int) Math.ceil(low))),
          Math.max(0, Math.min(width, (int) Math.floor(high)))
        };
  }

  private void reduce(float[] band, int first, int n) {
    int w = photo.width();
    int rw = reduced.width();
    float[] out = reduced.array();
    for (int y = 0; y < n; y++) {
      int r = (first + y) / factor;
      if (r >= reduced.height()) {
        break;
      }
      int at = (y + 2) * w;
      for (int c = 0; c < rw; c++) {
        float sum = 0;
        for (int x = c * factor; x < (c + 1) * factor && x < w; x++) {
          sum += band[at + x];
        }
        out[r * rw + c] += sum / (factor * factor);
      }
    }
  }

  StepField columns() {
    return columns;
  }

  StepField rows() {
    return rows;
  }

  /** The photograph averaged over squares of {@link #factor} px. */
  GrayRaster reduced() {
    return reduced;
  }

  int factor() {
    return factor;
  }

  BlockGrid blockGrid() {
    return Arrays.stream(grids).reduce(BlockGrid::plus).orElseThrow();
  }

  Exposure exposure() {
    long seen = 0;
    long black = 0;
    long white = 0;
    for (long[] c : counts) {
      seen += c[0];
      black += c[1];
      white += c[2];
    }
    double n = Math.max(1, seen);
    return new Exposure(black / n, white / n);
  }
}
