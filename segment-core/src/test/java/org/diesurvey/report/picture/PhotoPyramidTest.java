package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Base64;
import java.util.List;
import javax.imageio.ImageIO;
import org.diesurvey.report.ImageSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PhotoPyramidTest {
  /** A smooth slope of grey, so that JPEG changes little and every place has its own value. */
  private static BufferedImage slope(int width, int height, boolean tinted) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        int g = (int) Math.round(200.0 * (x + 2 * y) / (width + 2 * height));
        image.setRGB(x, y, g << 16 | g << 8 | (tinted ? Math.min(255, g + 40) : g));
      }
    }
    return image;
  }

  private static BufferedImage tile(PhotoPyramid.Level level, int index) throws IOException {
    return ImageIO.read(
        new ByteArrayInputStream(Base64.getDecoder().decode(level.tiles().get(index))));
  }

  /** The stored value; {@code getRGB} would turn that of a grey picture into another. */
  private static int green(BufferedImage tile, int x, int y) {
    return tile.getRaster().getSample(x, y, tile.getRaster().getNumBands() / 2);
  }

  @ParameterizedTest(name = "{0} x {1} px, tinted {2}")
  @CsvSource({"150, 97, true", "64, 64, false", "129, 33, false", "20, 200, true"})
  void everyLevel_showsTheSamePictureAtHalfTheSize(int width, int height, boolean tinted)
      throws IOException {
    BufferedImage photo = slope(width, height, tinted);
    PhotoPyramid pyramid = PhotoPyramid.of(new ImageSource(photo), 1_000_000, 64);
    assertEquals(1, pyramid.reduction());
    int w = width;
    int h = height;
    for (PhotoPyramid.Level level : pyramid.levels()) {
      assertEquals(List.of(w, h), List.of(level.width(), level.height()));
      int columns = (w + 63) / 64;
      assertEquals(columns * ((h + 63) / 64), level.tiles().size());
      int side = 1 << level.halvings();
      for (int i = 0; i < level.tiles().size(); i++) {
        BufferedImage tile = tile(level, i);
        int left = 64 * (i % columns);
        int top = 64 * (i / columns);
        assertEquals(Math.min(64, w - left), tile.getWidth());
        assertEquals(Math.min(64, h - top), tile.getHeight());
        assertEquals(tinted ? 3 : 1, tile.getRaster().getNumBands());
        int x = Math.min(width - 1, (left + tile.getWidth() / 2) * side + side / 2);
        int y = Math.min(height - 1, (top + tile.getHeight() / 2) * side + side / 2);
        int seen = green(tile, tile.getWidth() / 2, tile.getHeight() / 2);
        assertEquals(photo.getRGB(x, y) >> 8 & 0xff, seen, 8, "level " + level.halvings());
      }
      w = (w + 1) / 2;
      h = (h + 1) / 2;
    }
    PhotoPyramid.Level last = pyramid.levels().get(pyramid.levels().size() - 1);
    assertEquals(1, last.tiles().size());
  }

  @Test
  void photographAboveTheLimit_startsAtAHalvedLevel() throws IOException {
    PhotoPyramid pyramid = PhotoPyramid.of(new ImageSource(slope(301, 200, true)), 4000, 64);
    assertEquals(4, pyramid.reduction());
    PhotoPyramid.Level first = pyramid.levels().get(0);
    assertEquals(List.of(76, 50), List.of(first.width(), first.height()));
    // Mean of the one column left over at the right edge: the slope's value there.
    BufferedImage last = tile(first, 1);
    assertEquals(200.0 * 300 / 701, green(last, last.getWidth() - 1, 0), 8);
  }

  @Test
  void samePhotograph_givesTheSameTiles() {
    ImageSource photo = new ImageSource(slope(300, 260, true));
    assertEquals(PhotoPyramid.of(photo, 1_000_000, 64), PhotoPyramid.of(photo, 1_000_000, 64));
  }

  @Test
  void photographWithinTheLimit_isShownInFull() {
    assertTrue(PhotoPyramid.MOST_PIXELS >= 50_000_000);
  }
}
