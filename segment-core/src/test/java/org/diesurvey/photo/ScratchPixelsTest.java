package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageOutputStream;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A picture that goes to a scratch file is the one that memory would hold. */
class ScratchPixelsTest {
  private static final int WIDTH = 203;
  private static final int HEIGHT = 131;

  @TempDir Path folder;

  private Expanded decode(Path file, boolean inFile) throws IOException {
    try (PhotoFile open = PhotoFile.open(file, new Refusals(file.toString()))) {
      FileFormat format = file.toString().endsWith(".png") ? FileFormat.PNG : FileFormat.JPEG;
      PhotoHeader header = format == FileFormat.PNG ? PngHeader.read(open) : JpegHeader.read(open);
      return WholeImageDecoder.decode(open, format, 0, header, sizes(open), inFile);
    }
  }

  private static SizeLimits sizes(PhotoFile file) {
    return new SizeLimits(file.refusals(), file.size(), ReadLimits.defaults());
  }

  private void assertSame(Path file) throws IOException {
    Expanded held = decode(file, false);
    Expanded filed = decode(file, true);
    assertTrue(held.pixels() instanceof DecodedPixels);
    assertTrue(filed.pixels() instanceof ScratchPixels, "kept in memory");
    assertEquals(held.bits(), filed.bits());
    PixelRect window = new PixelRect(31, 17, 150, 99);
    float[] grey = new float[150 * 99];
    float[] again = new float[150 * 99];
    held.pixels().readGray(window, grey);
    filed.pixels().readGray(window, again);
    assertArrayEquals(grey, again);
    int[] rgb = new int[150 * 99];
    int[] rgbAgain = new int[150 * 99];
    held.pixels().readRgb(window, rgb);
    filed.pixels().readRgb(window, rgbAgain);
    assertArrayEquals(rgb, rgbAgain);
    byte[] table = new byte[1 << held.bits()];
    for (int i = 0; i < table.length; i++) {
      table[i] = (byte) (i * 7);
    }
    held.pixels().readRgb(window, rgb, table);
    filed.pixels().readRgb(window, rgbAgain, table);
    assertArrayEquals(rgb, rgbAgain);
    filed.pixels().close();
  }

  @ParameterizedTest(name = "{0} samples of {1} bits")
  @CsvSource({"1, 8", "2, 8", "3, 8", "4, 8", "1, 16", "3, 16", "4, 16"})
  void png(int samples, int bits) throws IOException {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, samples, bits, 5);
    assertSame(TestPictures.write(image, "png", folder.resolve("a.png")));
  }

  @ParameterizedTest(name = "{0} samples, progressive: {1}")
  @CsvSource({"1, false", "3, false", "3, true"})
  void jpeg(int samples, boolean progressive) throws IOException {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, samples, 8, 6);
    assertSame(jpegFile(image, progressive));
  }

  private Path jpegFile(BufferedImage image, boolean progressive) throws IOException {
    Path file = folder.resolve("a.jpg");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ImageWriteParam param = writer.getDefaultWriteParam();
    if (progressive) {
      param.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
    }
    try (FileImageOutputStream out = new FileImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    }
    writer.dispose();
    return file;
  }

  /** Adam7 comes pixel by pixel in seven passes: such a picture must fit the memory. */
  @Test
  void interlacedPng_staysInMemory() throws IOException {
    Path file = folder.resolve("a.png");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
    ImageWriteParam param = writer.getDefaultWriteParam();
    param.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
    try (FileImageOutputStream out = new FileImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, 3, 8, 7);
      writer.write(null, new IIOImage(image, null, null), param);
    }
    writer.dispose();
    assertTrue(decode(file, true).pixels() instanceof DecodedPixels);
  }

  @Test
  void cutJpeg_isRefusedAlike() throws IOException {
    Path file = jpegFile(TestPictures.picture(WIDTH, HEIGHT, 3, 8, 8), false);
    byte[] all = Files.readAllBytes(file);
    byte[] cut = Arrays.copyOf(all, all.length / 2 + 2);
    cut[cut.length - 2] = (byte) 0xff;
    cut[cut.length - 1] = (byte) 0xd9;
    Files.write(file, cut);
    String held = assertThrows(DieInputException.class, () -> decode(file, false)).getMessage();
    assertEquals(
        held, assertThrows(DieInputException.class, () -> decode(file, true)).getMessage());
  }

  /** An interrupt is no damage of the photograph, whatever the reader makes of it. */
  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"png", "jpg"})
  void interruptedDecoding_isCancelled(String ending) throws IOException {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, 3, 8, 9);
    Path file =
        ending.equals("png")
            ? TestPictures.write(image, "png", folder.resolve("a.png"))
            : jpegFile(image, false);
    try (PhotoFile open = PhotoFile.open(file, new Refusals(file.toString()))) {
      FileFormat format = ending.equals("png") ? FileFormat.PNG : FileFormat.JPEG;
      PhotoHeader header = new PhotoHeader(WIDTH, HEIGHT, 8, 3, Optional.empty());
      Thread.currentThread().interrupt();
      assertThrows(
          CancelledException.class,
          () -> WholeImageDecoder.decode(open, format, 0, header, sizes(open), true));
    } finally {
      assertTrue(Thread.interrupted());
    }
  }
}
