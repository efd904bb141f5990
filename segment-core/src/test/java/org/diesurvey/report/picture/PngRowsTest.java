package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PngRowsTest {

  /** Read back by the decoder of the Java platform, which this project did not write. */
  @ParameterizedTest
  @CsvSource({"1, 1, 1", "7, 5, 1", "300, 200, 1", "1, 9, 3", "257, 64, 3"})
  void rows_areReadBackByAnotherDecoder(int width, int height, int channels) throws IOException {
    Random random = new Random(20261L + width);
    byte[] samples = new byte[width * channels * height];
    random.nextBytes(samples);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (PngRows png = new PngRows(bytes, width, height, channels)) {
      byte[] row = new byte[width * channels];
      for (int y = 0; y < height; y++) {
        System.arraycopy(samples, y * row.length, row, 0, row.length);
        png.row(row);
      }
    }
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(bytes.toByteArray()));
    assertEquals(channels, image.getRaster().getNumBands());
    assertEquals(8, image.getColorModel().getComponentSize(0));
    int[] read = image.getRaster().getPixels(0, 0, width, height, (int[]) null);
    int[] written = new int[samples.length];
    for (int i = 0; i < samples.length; i++) {
      written[i] = samples[i] & 0xff;
    }
    assertArrayEquals(written, read);
  }
}
