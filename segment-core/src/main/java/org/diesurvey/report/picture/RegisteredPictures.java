package org.diesurvey.report.picture;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.diesurvey.comparison.ComparisonResult;
import org.diesurvey.comparison.DiePlace;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PlaneTransform;

/**
 * Two photographs laid on each other: both in the die frame of the first die, of one size.
 *
 * @param first the first photograph, 0xRRGGBB
 * @param second the second photograph, the same size
 * @param left die frame x of the left side, unit of length of the comparison
 * @param top die frame y (upwards) of the upper side
 * @param unitPerPx unit of length per px
 * @param dieWidth width of the first die, unit of length
 * @param dieHeight height of the first die, unit of length
 */
public record RegisteredPictures(
    BufferedImage first,
    BufferedImage second,
    double left,
    double top,
    double unitPerPx,
    double dieWidth,
    double dieHeight) {
  /** Shown where a photograph has nothing. */
  private static final int NOTHING = 0x6B6F75;

  /** Room beside the dies, share of the longer side. */
  private static final double MARGIN = 0.02;

  /** From a place of the first die's frame to a photograph. */
  private interface Place {
    double at(double x, double y);
  }

  /**
   * Draws both, the die of each wholly in view.
   *
   * @param mostPx largest number of pixels of each picture
   */
  public static RegisteredPictures of(
      ComparisonResult result, PixelSource photoA, PixelSource photoB, double mostPx) {
    DiePlace a = result.placeA();
    DiePlace b = result.placeB();
    PlaneTransform aToB = result.comparison().registration().aToB();
    PlaneTransform bToA = aToB.inverse();
    double left = 0;
    double bottom = 0;
    double right = a.width();
    double top = a.height();
    for (int corner = 0; corner < 4; corner++) {
      double u = (corner & 1) * b.width();
      double v = (corner >> 1) * b.height();
      left = Math.min(left, bToA.x(u, v));
      right = Math.max(right, bToA.x(u, v));
      bottom = Math.min(bottom, bToA.y(u, v));
      top = Math.max(top, bToA.y(u, v));
    }
    double room = MARGIN * Math.max(right - left, top - bottom);
    double width = right - left + 2 * room;
    double height = top - bottom + 2 * room;
    double finest = Math.min(a.unitPerPx(), b.unitPerPx() * Math.sqrt(Math.abs(area(bToA))));
    double unitPerPx = Math.max(finest, Math.sqrt(width * height / mostPx));
    int columns = Math.max(1, (int) (width / unitPerPx));
    int rows = Math.max(1, (int) (height / unitPerPx));
    double x0 = left - room;
    double y0 = top + room;
    CompletableFuture<BufferedImage> first =
        CompletableFuture.supplyAsync(
            () -> warped(photoA, a::photoX, a::photoY, x0, y0, unitPerPx, columns, rows));
    BufferedImage second =
        warped(
            photoB,
            (x, y) -> b.photoX(aToB.x(x, y), aToB.y(x, y)),
            (x, y) -> b.photoY(aToB.x(x, y), aToB.y(x, y)),
            x0,
            y0,
            unitPerPx,
            columns,
            rows);
    return new RegisteredPictures(first.join(), second, x0, y0, unitPerPx, a.width(), a.height());
  }

  private static double area(PlaneTransform t) {
    return t.a() * t.e() - t.b() * t.d();
  }

  /** Column of a place of the die frame. */
  public double column(double x) {
    return (x - left) / unitPerPx;
  }

  /** Row of a place of the die frame. */
  public double row(double y) {
    return (top - y) / unitPerPx;
  }

  private static BufferedImage warped(
      PixelSource photo,
      Place px,
      Place py,
      double x0,
      double y0,
      double unitPerPx,
      int columns,
      int rows) {
    BufferedImage image = new BufferedImage(columns, rows, BufferedImage.TYPE_INT_RGB);
    int[] target = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
    // Photo px for each px of the picture: whole blocks are averaged first where there are more.
    double midX = x0 + columns * unitPerPx / 2;
    double midY = y0 - rows * unitPerPx / 2;
    double step =
        Math.hypot(
            px.at(midX + unitPerPx, midY) - px.at(midX, midY),
            py.at(midX + unitPerPx, midY) - py.at(midX, midY));
    int k = Math.max(1, (int) Math.floor(step + 0.01));
    ReducedPhoto reduced = ReducedPhoto.by(photo, k);
    BufferedImage small = reduced.image();
    int[] source = ((DataBufferInt) small.getRaster().getDataBuffer()).getData();
    int w = small.getWidth();
    int h = small.getHeight();
    IntStream.range(0, rows)
        .parallel()
        .forEach(
            row -> {
              double y = y0 - (row + 0.5) * unitPerPx;
              for (int column = 0; column < columns; column++) {
                double x = x0 + (column + 0.5) * unitPerPx;
                target[row * columns + column] =
                    sample(source, w, h, px.at(x, y) / k - 0.5, py.at(x, y) / k - 0.5);
              }
            });
    return image;
  }

  /** Bilinear; places beyond the outer half pixel have nothing. */
  private static int sample(int[] source, int w, int h, double x, double y) {
    if (!(x > -0.5 && y > -0.5 && x < w - 0.5 && y < h - 0.5)) {
      return NOTHING;
    }
    int x0 = Math.max(0, Math.min(w - 1, (int) Math.floor(x)));
    int y0 = Math.max(0, Math.min(h - 1, (int) Math.floor(y)));
    int x1 = Math.min(w - 1, x0 + 1);
    int y1 = Math.min(h - 1, y0 + 1);
    int fx = (int) (256 * Math.max(0, Math.min(1, x - x0)));
    int fy = (int) (256 * Math.max(0, Math.min(1, y - y0)));
    int p = source[y0 * w + x0];
    int q = source[y0 * w + x1];
    int r = source[y1 * w + x0];
    int s = source[y1 * w + x1];
    int mixed = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
      int upper = (p >> shift & 255) * (256 - fx) + (q >> shift & 255) * fx;
      int lower = (r >> shift & 255) * (256 - fx) + (s >> shift & 255) * fx;
      mixed |= (upper * (256 - fy) + lower * fy + 32768 >> 16) << shift;
    }
    return mixed;
  }
}
