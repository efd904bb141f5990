package org.diesurvey.photo;

import java.io.IOException;
import java.util.Arrays;
import org.diesurvey.raster.PixelRect;

/**
 * Pixels turned and mirrored as the orientation tag says (TIFF 6.0, section 8, Orientation; the
 * same codes in EXIF): code 1 is as stored, 3 turned by half a turn, 6 and 8 by a quarter.
 */
final class OrientedPixels implements PixelSource {
  private final PixelSource stored;
  private final boolean swap;
  private final boolean mirrorX;
  private final boolean mirrorY;

  private OrientedPixels(PixelSource stored, int orientation) {
    this.stored = stored;
    this.swap = orientation >= 5;
    // Whether columns and rows of the file run backwards in the photograph.
    this.mirrorX = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    this.mirrorY = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  }

  static PixelSource of(PixelSource stored, int orientation) {
    return orientation == 1 ? stored : new OrientedPixels(stored, orientation);
  }

  @Override
  public int width() {
    return swap ? stored.height() : stored.width();
  }

  @Override
  public int height() {
    return swap ? stored.width() : stored.height();
  }

  /** The window of the file that holds a window of the photograph. */
  private PixelRect inFile(PixelRect w) {
    int x = swap ? w.y() : w.x();
    int y = swap ? w.x() : w.y();
    int width = swap ? w.height() : w.width();
    int height = swap ? w.width() : w.height();
    return new PixelRect(
        mirrorX ? stored.width() - x - width : x,
        mirrorY ? stored.height() - y - height : y,
        width,
        height);
  }

  /** Index in the file's window of the pixel at column x, row y of the photograph's window. */
  private int index(PixelRect file, int x, int y) {
    int column = swap ? y : x;
    int row = swap ? x : y;
    int fx = mirrorX ? file.width() - 1 - column : column;
    int fy = mirrorY ? file.height() - 1 - row : row;
    return fy * file.width() + fx;
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    Windows.check(window, this, target.length);
    PixelRect file = inFile(window);
    stored.readGray(file, target);
    float[] as = Arrays.copyOf(target, file.width() * file.height());
    for (int y = 0, i = 0; y < window.height(); y++) {
      for (int x = 0; x < window.width(); x++, i++) {
        target[i] = as[index(file, x, y)];
      }
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    Windows.check(window, this, target.length);
    PixelRect file = inFile(window);
    stored.readRgb(file, target);
    int[] as = Arrays.copyOf(target, file.width() * file.height());
    for (int y = 0, i = 0; y < window.height(); y++) {
      for (int x = 0; x < window.width(); x++, i++) {
        target[i] = as[index(file, x, y)];
      }
    }
  }

  @Override
  public void close() throws IOException {
    stored.close();
  }
}
