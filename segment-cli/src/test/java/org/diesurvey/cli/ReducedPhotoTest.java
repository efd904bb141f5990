package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.OptionalDouble;
import javax.imageio.ImageIO;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.scoring.Truth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReducedPhotoTest {
  @TempDir Path folder;

  @Test
  void pixels_areMeansOfSquares() throws IOException {
    BufferedImage in = new BufferedImage(7, 6, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < 6; y++) {
      for (int x = 0; x < 7; x++) {
        in.setRGB(x, y, (x * 10) << 16 | (y * 20) << 8 | 30);
      }
    }
    ImageIO.write(in, "png", folder.resolve("in.png").toFile());
    ReducedPhoto.write(folder.resolve("in.png"), 3, folder.resolve("out.png"));
    BufferedImage out = ImageIO.read(folder.resolve("out.png").toFile());
    assertEquals(2, out.getWidth());
    assertEquals(2, out.getHeight());
    // Columns 3 to 5 have a mean of 40, rows 0 to 2 of 20.
    assertEquals(40 << 16 | 20 << 8 | 30, out.getRGB(1, 0) & 0xFFFFFF);
  }

  @Test
  void truth_keepsItsPlaceAndTellsTheCoarserPitch() {
    LabelRaster labels = new LabelRaster(9, 6);
    for (int i = 0; i < labels.array().length; i++) {
      labels.array()[i] = (byte) (i % 9 < 3 ? 1 : 3);
    }
    Truth fine = Truth.ofLabels("die", labels, OptionalDouble.of(0.5));
    int factor = ReducedPhoto.factor(fine, 1.4);
    Truth coarse = ReducedPhoto.truth(fine, factor);
    assertEquals(1.5, coarse.umPerPx().getAsDouble());
    assertEquals(3, coarse.labels().width());
    assertEquals(1, coarse.labels().array()[0]);
    assertEquals(3, coarse.labels().array()[1]);
  }
}
