package org.diesurvey.report.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * A photograph as square JPEG tiles in levels, each half the size of the one before, so that a page
 * shows any part of it at any size and decodes only what is seen. Equal photographs give equal
 * bytes with any number of threads.
 *
 * @param tilePx side of a tile, px
 * @param levels finest first; the last fits into one tile
 */
public record PhotoPyramid(int tilePx, List<Level> levels) {
  /** Photographs up to this size are shown in full, larger ones reduced. */
  static final long MOST_PIXELS = 50_000_000L;

  private static final int TILE_PX = 512;
  private static final float JPEG_QUALITY = 0.8f;

  public PhotoPyramid {
    levels = List.copyOf(levels);
  }

  /**
   * One size of the photograph.
   *
   * @param halvings how often it was halved: one px of it stands for 2^halvings photo px
   * @param width px; a last column narrower than a full px of this level counts as one
   * @param height px
   * @param tiles JPEG files in base64, row by row
   */
  public record Level(int halvings, int width, int height, List<String> tiles) {
    public Level {
      tiles = List.copyOf(tiles);
    }
  }

  /** How many photo px stand for one px of the finest level, along each side: 1, 2, 4... */
  public int reduction() {
    return 1 << levels.get(0).halvings;
  }

  public static PhotoPyramid of(PixelSource photo) {
    return of(photo, MOST_PIXELS, TILE_PX);
  }

  public static PhotoPyramid of(PixelSource photo, long mostPixels, int tilePx) {
    int halvings = 0;
    while (pixels(photo, halvings) > mostPixels) {
      halvings++;
    }
    int width = reduced(photo.width(), halvings);
    int height = reduced(photo.height(), halvings);
    int[] below = new int[reduced(width, 1) * reduced(height, 1)];
    List<Level> levels = new ArrayList<>();
    levels.add(new Level(halvings, width, height, first(photo, halvings, tilePx, below)));
    while (width > tilePx || height > tilePx) {
      width = reduced(width, 1);
      height = reduced(height, 1);
      halvings++;
      int[] pixels = below;
      int w = width;
      int rows = height;
      List<String> tiles =
          IntStream.range(0, tiles(rows, tilePx))
              .parallel()
              .boxed()
              .flatMap(r -> row(pixels, w, r * tilePx, Math.min(rows, (r + 1) * tilePx), tilePx))
              .toList();
      levels.add(new Level(halvings, width, height, tiles));
      below = new int[reduced(width, 1) * reduced(height, 1)];
      halve(pixels, width, height, below, 0);
    }
    return new PhotoPyramid(tilePx, levels);
  }

  private static long pixels(PixelSource photo, int halvings) {
    return (long) reduced(photo.width(), halvings) * reduced(photo.height(), halvings);
  }

  private static int reduced(int length, int halvings) {
    return (int) (((long) length + (1L << halvings) - 1) >> halvings);
  }

  private static int tiles(int length, int tilePx) {
    return (length + tilePx - 1) / tilePx;
  }

  /** The finest level, read band by band; fills the level below it on the way. */
  private static List<String> first(PixelSource photo, int halvings, int tilePx, int[] below) {
    int width = reduced(photo.width(), halvings);
    int height = reduced(photo.height(), halvings);
    return IntStream.range(0, tiles(height, tilePx))
        .parallel()
        .boxed()
        .flatMap(
            r -> {
              int top = r * tilePx;
              int rows = Math.min(height, top + tilePx) - top;
              int[] band = band(photo, halvings, top, rows);
              halve(band, width, rows, below, (top / 2) * reduced(width, 1));
              return row(band, width, 0, rows, tilePx);
            })
        .toList();
  }

  private static int[] band(PixelSource photo, int halvings, int top, int rows) {
    int width = photo.width();
    if (halvings == 0) {
      int[] band = new int[width * rows];
      photo.readRgb(new PixelRect(0, top, width, rows), band);
      return band;
    }
    int side = 1 << halvings;
    int target = reduced(width, halvings);
    int[] band = new int[target * rows];
    int[] strip = new int[Math.multiplyExact(width, Math.min(side, photo.height()))];
    for (int y = 0; y < rows; y++) {
      int from = (top + y) * side;
      int deep = Math.min(side, photo.height() - from);
      photo.readRgb(new PixelRect(0, from, width, deep), strip);
      for (int x = 0; x < target; x++) {
        int wide = Math.min(side, width - x * side);
        band[y * target + x] = ReducedPhoto.mean(strip, width, x * side, wide, deep);
      }
    }
    return band;
  }

  /** Means of 2 x 2 px, of fewer at an odd right or lower edge. */
  private static void halve(int[] pixels, int width, int height, int[] target, int start) {
    int half = reduced(width, 1);
    for (int y = 0; y < height; y += 2) {
      int down = y + 1 < height ? width : 0;
      int out = start + (y / 2) * half;
      for (int x = 0; x < width; x += 2) {
        int i = y * width + x;
        int right = x + 1 < width ? 1 : 0;
        target[out++] =
            mean4(pixels[i], pixels[i + right], pixels[i + down], pixels[i + down + right]);
      }
    }
  }

  private static int mean4(int a, int b, int c, int d) {
    // Red and blue lie 16 bits apart, so both sums fit into one int.
    int redBlue = (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff) + 0x20002;
    int green = (a & 0xff00) + (b & 0xff00) + (c & 0xff00) + (d & 0xff00) + 0x200;
    return redBlue >> 2 & 0xff00ff | green >> 2 & 0xff00;
  }

  /** The tiles of the rows from {@code top} to {@code bottom}, left to right. */
  private static Stream<String> row(int[] pixels, int width, int top, int bottom, int tilePx) {
    return IntStream.range(0, tiles(width, tilePx))
        .mapToObj(
            c -> {
              int left = c * tilePx;
              int w = Math.min(width, left + tilePx) - left;
              int[] tile = new int[w * (bottom - top)];
              for (int y = top; y < bottom; y++) {
                int from = y * width + left;
                System.arraycopy(pixels, from, tile, (y - top) * w, w);
              }
              return JpegText.base64(tile, w, bottom - top, JPEG_QUALITY);
            });
  }

  /** Bytes of base64 in all tiles together. */
  long textLength() {
    return levels.stream().flatMap(l -> l.tiles.stream()).mapToLong(String::length).sum();
  }
}
