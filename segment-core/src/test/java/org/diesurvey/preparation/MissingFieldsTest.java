package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;

/** Places of one tone on a noisy surface. */
class MissingFieldsTest {
  private static final int SIDE = 800;

  /** Grey, 0 to 1, of the pixels inside; below 0 outside the place. */
  private interface Place {
    float at(int x, int y);
  }

  private static MissingFields find(Place place) {
    Random random = new Random(5);
    GrayRaster g = new GrayRaster(SIDE, SIDE);
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        float p = place.at(x, y);
        double level = p >= 0 ? 255 * p : 90 + 3 * random.nextGaussian();
        g.set(x, y, Math.round(level) / 255f);
      }
    }
    return MissingFields.of(source(g));
  }

  private static PixelSource source(GrayRaster g) {
    return new PixelSource() {
      @Override
      public int width() {
        return g.width();
      }

      @Override
      public int height() {
        return g.height();
      }

      @Override
      public void readGray(PixelRect w, float[] target) {
        for (int r = 0; r < w.height(); r++) {
          System.arraycopy(
              g.array(), (w.y() + r) * g.width() + w.x(), target, r * w.width(), w.width());
        }
      }

      @Override
      public void readRgb(PixelRect w, int[] target) {
        throw new UnsupportedOperationException();
      }

      @Override
      public void close() {}
    };
  }

  private static Place rectangle(int x0, int y0, int x1, int y1, float tone) {
    return (x, y) -> x >= x0 && x < x1 && y >= y0 && y < y1 ? tone : -1;
  }

  /** Edges that fall between blocks are placed to half a block. */
  @Test
  void blackOrGreyRectangle_isMissing_toHalfABlock() {
    for (float tone : new float[] {0, 0.6f}) {
      MissingFields m = find(rectangle(203, 102, 451, 349, tone));
      int wrong = 0;
      for (int y = 0; y < SIDE; y++) {
        for (int x = 0; x < SIDE; x++) {
          boolean in = x >= 203 - 4 && x < 451 + 4 && y >= 102 - 4 && y < 349 + 4;
          boolean deep = x >= 203 + 5 && x < 451 - 5 && y >= 102 + 5 && y < 349 - 5;
          boolean is = m.at(x + 0.5, y + 0.5);
          wrong += is && !in || !is && deep ? 1 : 0;
        }
      }
      assertEquals(0, wrong, "tone " + tone);
    }
  }

  @Test
  void twoFieldsThatMeet_areMissing() {
    MissingFields m = find((x, y) -> x > 600 && y < 200 || x > 400 && y < 500 && y >= 200 ? 0 : -1);
    assertTrue(m.at(700, 100) && m.at(450, 400));
    assertFalse(m.at(500, 100));
  }

  /** Clipped glare and black dust have round outlines. */
  @Test
  void roundPlacesOfOneTone_arePictures() {
    for (float tone : new float[] {0, 1}) {
      assertFalse(find((x, y) -> Math.hypot(x - 400, y - 380) < 110 ? tone : -1).any());
    }
  }

  /** Squares of 110 px in a row, as bond pads that the lamp clipped. */
  @Test
  void clippedBondPads_arePictures() {
    assertFalse(find((x, y) -> y > 40 && y < 151 && x % 160 > 49 ? 1 : -1).any());
  }

  @Test
  void photograph_isWhole() {
    assertFalse(find((x, y) -> -1).any());
  }

  /** 441 MP are looked at in blocks of 16 px. */
  @Test
  void fieldOfALargeMosaic_isFoundInLargerBlocks() {
    int side = 21_000;
    PixelSource photo =
        new PixelSource() {
          @Override
          public int width() {
            return side;
          }

          @Override
          public int height() {
            return side;
          }

          @Override
          public void readGray(PixelRect w, float[] target) {
            for (int i = 0; i < w.width() * w.height(); i++) {
              int x = w.x() + i % w.width();
              int y = w.y() + i / w.width();
              boolean field = x >= 4000 && x < 6000 && y >= 9000 && y < 10_500;
              target[i] = field ? 0 : (80 + (x * 31 + y * 17) % 23) / 255f;
            }
          }

          @Override
          public void readRgb(PixelRect w, int[] target) {
            throw new UnsupportedOperationException();
          }

          @Override
          public void close() {}
        };
    MissingFields m = MissingFields.of(photo);
    assertEquals(16, m.blockPx());
    assertTrue(m.at(4020, 9020) && m.at(5980, 10_480) && m.at(5000, 9700));
    assertFalse(m.at(3980, 9700) || m.at(6020, 9700) || m.at(5000, 8980) || m.at(5000, 10_520));
  }
}
