package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import org.diesurvey.comparison.ComparisonResult;
import org.diesurvey.comparison.DiePlace;
import org.diesurvey.comparison.TestPlaces;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.report.ImageSource;
import org.junit.jupiter.api.Test;

/**
 * A die of 360 x 260 um with a bright mark at x 100 to 140, y 60 to 100 um (y up). The first
 * photograph shows it at 1 um/px, the second mirrored left to right, at 0.5 um/px and elsewhere.
 */
class RegisteredPicturesTest {
  private static final PixelSource FIRST =
      photo(400, 300, 20, 20, 360, 260, 20 + 100, 20 + 260 - 100, 40);
  private static final PixelSource SECOND =
      photo(900, 640, 100, 60, 720, 520, 100 + 2 * (360 - 140), 60 + 2 * (260 - 100), 80);

  private static PixelSource photo(
      int w, int h, int dieX, int dieY, int dieW, int dieH, int markX, int markY, int mark) {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(0x404040));
    g.fillRect(dieX, dieY, dieW, dieH);
    g.setColor(Color.WHITE);
    g.fillRect(markX, markY, mark, mark);
    g.dispose();
    return new ImageSource(image);
  }

  private static RegisteredPictures pictures(double mostPx) {
    DiePlace a = TestPlaces.place(FIRST, 20, 20, 380, 280, 1);
    DiePlace b = TestPlaces.place(SECOND, 100, 60, 820, 580, 0.5);
    ComparisonResult result =
        TestPlaces.result(a, b, new PlaneTransform(-1, 0, b.width(), 0, 1, 0));
    return RegisteredPictures.of(result, FIRST, SECOND, mostPx);
  }

  private static int grey(RegisteredPictures p, BufferedImage image, double x, double y) {
    return image.getRGB((int) p.column(x), (int) p.row(y)) & 255;
  }

  @Test
  void bothShowTheMarkAtTheSamePlace_whateverTheSizeOfThePictures() {
    for (double mostPx : new double[] {8e6, 60_000, 20_000}) {
      RegisteredPictures p = pictures(mostPx);
      assertEquals(p.first().getWidth(), p.second().getWidth());
      assertTrue((double) p.first().getWidth() * p.first().getHeight() <= mostPx);
      for (BufferedImage image : new BufferedImage[] {p.first(), p.second()}) {
        assertEquals(255, grey(p, image, 120, 80), 3);
        for (double[] inside : new double[][] {{104, 64}, {136, 64}, {104, 96}, {136, 96}}) {
          assertTrue(grey(p, image, inside[0], inside[1]) > 200, mostPx + " px");
        }
        for (double[] outside : new double[][] {{94, 80}, {146, 80}, {120, 54}, {120, 106}}) {
          assertEquals(0x40, grey(p, image, outside[0], outside[1]), 25, mostPx + " px");
        }
      }
    }
  }

  @Test
  void picturesAreAsFineAsTheFinerPhotograph_whereThereIsRoom() {
    assertEquals(0.5, pictures(8e6).unitPerPx(), 0.01);
    assertEquals(360, pictures(8e6).dieWidth(), 1.5);
  }
}
