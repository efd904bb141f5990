package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EnlargedPhotoTest {
  @TempDir Path folder;

  /** A slope stays a slope: straight lines between pixels change nothing of it, JPEG little. */
  @Test
  void slope_staysTheSameSlope() throws IOException {
    BufferedImage small = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < 300; y++) {
      for (int x = 0; x < 400; x++) {
        small.setRGB(x, y, x / 2 << 16 | y / 2 << 8 | 90);
      }
    }
    Path photo = folder.resolve("small.png");
    ImageIO.write(small, "png", photo.toFile());
    Path large = folder.resolve("large.tif");
    EnlargedPhoto.write(photo, 2.5, large);
    try (DiePhoto open = DiePhoto.open(large)) {
      assertEquals(1000, open.info().widthPx());
      assertEquals(750, open.info().heightPx());
      int[] rgb = new int[1000 * 750];
      open.pixels().readRgb(new PixelRect(0, 0, 1000, 750), rgb);
      for (int[] at : new int[][] {{500, 375}, {20, 700}, {980, 30}, {511, 512}, {513, 511}}) {
        int c = rgb[at[1] * 1000 + at[0]];
        assertEquals(at[0] / 5.0, c >> 16, 4, "red at " + at[0] + ", " + at[1]);
        assertEquals(at[1] / 5.0, c >> 8 & 0xFF, 4, "green at " + at[0] + ", " + at[1]);
        assertEquals(90, c & 0xFF, 4);
      }
    }
  }
}
