package org.diesurvey.archive.pages;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import org.diesurvey.report.picture.Pictures;

/** A small picture of each survey for the index page and contact sheets. */
public final class Thumbnails {
  /** Name in the folder of a photograph. */
  static final String FILE = "thumbnail.png";

  private static final int LONG_SIDE_PX = 240;

  private Thumbnails() {}

  /** A small picture of an overlay. */
  static BufferedImage of(BufferedImage overlay) {
    double scale =
        Math.min(1, (double) LONG_SIDE_PX / Math.max(overlay.getWidth(), overlay.getHeight()));
    int width = Math.max(1, (int) Math.round(overlay.getWidth() * scale));
    int height = Math.max(1, (int) Math.round(overlay.getHeight() * scale));
    return reduced(overlay, width, height);
  }

  /** Adds a small picture to the folder of its survey. */
  public static void add(BufferedImage overlay, Path folder) throws IOException {
    Pictures.write(of(overlay), folder.resolve(FILE));
  }

  /** Each pixel is the mean of those that fall into it. */
  private static BufferedImage reduced(BufferedImage large, int width, int height) {
    int w = large.getWidth();
    int h = large.getHeight();
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    int[] line = new int[w];
    long[] sums = new long[4 * width];
    for (int y = 0; y < h; y++) {
      large.getRGB(0, y, w, 1, line, 0, w);
      for (int x = 0; x < w; x++) {
        int at = 4 * (int) ((long) x * width / w);
        sums[at] += line[x] >> 16 & 0xff;
        sums[at + 1] += line[x] >> 8 & 0xff;
        sums[at + 2] += line[x] & 0xff;
        sums[at + 3]++;
      }
      int row = (int) ((long) y * height / h);
      if (y + 1 == h || (int) ((long) (y + 1) * height / h) != row) {
        for (int x = 0; x < width; x++) {
          long n = sums[4 * x + 3];
          long rgb = sums[4 * x] / n << 16 | sums[4 * x + 1] / n << 8 | sums[4 * x + 2] / n;
          small.setRGB(x, row, (int) rgb);
        }
        Arrays.fill(sums, 0);
      }
    }
    return small;
  }
}
