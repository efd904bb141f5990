package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JpegCompressionTest {
  @TempDir Path temp;

  private static BufferedImage picture() {
    BufferedImage image = new BufferedImage(200, 160, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < 160; y++) {
      for (int x = 0; x < 200; x++) {
        image.setRGB(x, y, (x * 7919 ^ y * 104729) >> 3 & 0xffffff);
      }
    }
    return image;
  }

  private static void write(Path file, float quality) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    try (ImageOutputStream out = ImageIO.createImageOutputStream(file.toFile())) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(quality);
      writer.setOutput(out);
      writer.write(null, new IIOImage(picture(), null, null), param);
    } finally {
      writer.dispose();
    }
  }

  /** The Java platform's own writer states its quality on the common scale. */
  @ParameterizedTest(name = "quality {0}")
  @ValueSource(ints = {10, 30, 50, 60, 75, 85, 92, 98})
  void qualityOfThePlatformsWriter_isReadBack(int quality) throws IOException {
    Path file = temp.resolve("q.jpg");
    write(file, quality / 100f);
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertEquals(quality, photo.jpegCompression().orElseThrow().quality(), 1);
    }
  }

  /** ITU-T T.81, table K.1: the first and last entries, at quality 50 unchanged. */
  @Test
  void qualityFifty_isTheTableOfTheStandard() {
    int[] t = JpegCompression.table(50);
    assertEquals(16, t[0]);
    assertEquals(11, t[1]);
    assertEquals(12, t[8]);
    assertEquals(99, t[63]);
    assertTrue(JpegCompression.ofTable(t).commonTable());
  }

  @Test
  void tableOfACamera_getsTheNearestQuality() {
    int[] t = JpegCompression.table(80);
    t[5] += 2;
    JpegCompression found = JpegCompression.ofTable(t);
    assertEquals(80, found.quality(), 1);
    assertTrue(!found.commonTable());
  }

  @Test
  void otherFormats_haveNone() throws IOException {
    Path file = temp.resolve("p.png");
    ImageIO.write(picture(), "png", file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertTrue(photo.jpegCompression().isEmpty());
    }
  }
}
