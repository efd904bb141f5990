package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Flat fields against the light they were drawn with and against OpenCV's Gaussian blur. */
class FlatFieldTest {
  private static final int W = 320;
  private static final int H = 256;

  @TempDir Path folder;

  private static double light(double x, double y) {
    double dx = (x - 130) / 300;
    double dy = (y - 140) / 300;
    return 0.75 - 0.9 * (dx * dx + dy * dy);
  }

  private DiePhoto png(String name, int w, int h, DrawnSource.Grey level) throws IOException {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        double v = Math.max(0, Math.min(1, level.at(x + 0.5, y + 0.5)));
        image.getRaster().setSample(x, y, 0, (int) Math.round(255 * v));
      }
    }
    Path file = folder.resolve(name);
    ImageIO.write(image, "png", file.toFile());
    return DiePhoto.open(file);
  }

  private DiePhoto noisy(String name) throws IOException {
    Random random = new Random(7);
    return png(name, W, H, (x, y) -> light(x, y) * (1 + 0.02 * random.nextGaussian()));
  }

  @Test
  void gain_isMeanLightOverLight() throws IOException {
    try (DiePhoto photo = noisy("flat.png")) {
      FlatField flat = FlatField.of(photo);
      double ratio = flat.gain(130, 140) * light(130, 140);
      for (double[] p : new double[][] {{40, 40}, {280, 60}, {60, 220}, {250, 200}}) {
        assertEquals(ratio, flat.gain(p[0], p[1]) * light(p[0], p[1]), 0.01 * ratio);
      }
    }
  }

  @Test
  void gain_agreesWithDivisionByALargeGaussianBlur() throws IOException {
    try (DiePhoto photo = noisy("flat.png")) {
      float[] grey = new float[W * H];
      photo.pixels().readGray(new org.diesurvey.raster.PixelRect(0, 0, W, H), grey);
      GrayRaster blurred = ImageFilters.gaussian(GrayRaster.over(W, H, grey), 8);
      FlatField flat = FlatField.of(photo);
      double middle = flat.gain(160, 128) * blurred.get(160, 128);
      for (int[] p : new int[][] {{60, 60}, {260, 70}, {70, 200}, {240, 190}}) {
        assertEquals(middle, flat.gain(p[0], p[1]) * blurred.get(p[0], p[1]), 0.01 * middle);
      }
    }
  }

  private static void refused(String words, DiePhoto photo) {
    DieInputException e = assertThrows(DieInputException.class, () -> FlatField.of(photo));
    assertEquals(DieInputException.Reason.FLAT_FIELD_UNUSABLE, e.reason());
    assertTrue(e.getMessage().contains(words), e.getMessage());
  }

  @Test
  void saturatedDarkOrStructuredFields_areRefused() throws IOException {
    refused("saturated", png("s.png", W, H, (x, y) -> x < 100 ? 1 : 0.7));
    refused("mean level", png("d.png", W, H, (x, y) -> 0.02));
    refused("structure", png("b.png", W, H, (x, y) -> x % 40 < 20 ? 0.3 : 0.6));
    refused("structure", png("f.png", W, H, (x, y) -> x % 4 < 2 ? 0.4 : 0.6));
  }

  @Test
  void photographOfAnotherSize_isRefused() throws IOException {
    try (DiePhoto flat = noisy("flat.png");
        DiePhoto other = png("other.png", W + 8, H, (x, y) -> 0.5)) {
      FlatField field = FlatField.of(flat);
      field.requireFits(flat.info());
      DieInputException e =
          assertThrows(DieInputException.class, () -> field.requireFits(other.info()));
      assertTrue(e.getMessage().contains("320 x 256"), e.getMessage());
    }
  }

  @Test
  void preparedDie_isEvenUnderTheFlatField() throws IOException {
    try (DiePhoto flat = noisy("flat.png");
        DiePhoto photo = png("die.png", W, H, (x, y) -> (x < 160 ? 0.5 : 0.8) * light(x, y))) {
      DieLocation frame = PreparedDie.locate(photo.pixels());
      PreparedDie die =
          PreparedDie.of(photo.proportional(), frame, 1, java.util.Optional.of(FlatField.of(flat)));
      assertEquals("flat-field", die.steps().get(die.steps().size() - 1).kind().id());
      GrayRaster rows = die.rows(0, die.height());
      // The step between two large halves is kept, which no estimate from the picture can promise.
      double near = rows.get(40, die.height() / 2);
      double far = rows.get(die.width() - 40, die.height() / 2);
      assertEquals(0.5 / 0.8, near / far, 0.02);
      assertEquals(near, rows.get(40, 30), 0.02 * near);
    }
  }
}
