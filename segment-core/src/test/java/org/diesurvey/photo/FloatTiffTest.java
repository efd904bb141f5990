package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Transparency;
import java.awt.color.ColorSpace;
import java.awt.image.BandedSampleModel;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.Raster;
import java.awt.image.SampleModel;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.Random;
import java.util.function.IntBinaryOperator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.ImageOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Photographs in floating point. References: the TIFF writer and reader of the Java platform; files
 * that tiffcp of libtiff 4 wrote with the predictor of floating-point numbers, which the platform
 * does not know, from samples of NumPy (binary16 among them).
 */
class FloatTiffTest {
  private static final int WIDTH = 90;
  private static final int HEIGHT = 70;
  private static final double LEVEL = 1 / 65535.0;

  @TempDir Path folder;

  @ParameterizedTest(name = "{0}, {1} bits, {2} samples")
  @CsvSource({
    "none, 32, 1",
    "LZW, 32, 1",
    "ZLib, 32, 1",
    "Deflate, 32, 1",
    "PackBits, 32, 1",
    "none, 64, 1",
    "ZLib, 64, 1",
    "none, 32, 3",
    "ZLib, 32, 3"
  })
  void samples_lieBetweenLeastAndGreatest_asThePlatformReadsThem(
      String coding, int bits, int samples) throws IOException {
    Path file = platformWrites(coding, bits, samples);
    Raster reference = platformReads(file);
    double least = Double.MAX_VALUE;
    double greatest = -Double.MAX_VALUE;
    for (double v : reference.getPixels(0, 0, WIDTH, HEIGHT, (double[]) null)) {
      least = Math.min(least, v);
      greatest = Math.max(greatest, v);
    }
    try (DiePhoto photo = DiePhoto.open(file)) {
      float[] grey = grey(photo.pixels());
      for (int y = 0, i = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++, i++) {
          double[] v = reference.getPixel(x, y, (double[]) null);
          double luma = samples == 1 ? v[0] : 0.299 * v[0] + 0.587 * v[1] + 0.114 * v[2];
          assertEquals((luma - least) / (greatest - least), grey[i], 0.51 * LEVEL + 1e-7);
        }
      }
      assertEquals(16, photo.info().bitsPerSample());
      String said = photo.reading().conversions().get(0);
      assertTrue(
          said.startsWith(
              "Floating-point samples of " + bits + " bits were scaled to whole numbers of 16"),
          said);
    }
  }

  /** (x + 64 (y mod 16) - 200) / 8, exact in all three formats. */
  @ParameterizedTest
  @ValueSource(strings = {"half-lzw3", "float-zip3", "double-zip3"})
  void filesOfLibtiff_withThePredictorOfFloatingPoint(String name) throws Exception {
    Path file = Path.of(FloatTiffTest.class.getResource(name + ".tif").toURI());
    try (DiePhoto photo = DiePhoto.open(file)) {
      float[] grey = grey(photo.pixels());
      for (int y = 0; y < 64; y++) {
        for (int x = 0; x < 64; x++) {
          double level = (x + 64 * (y % 16)) / 1023.0;
          assertEquals(level, grey[y * 64 + x], 0.51 * LEVEL, x + ", " + y);
        }
      }
      assertTrue(
          photo.reading().conversions().get(0).contains("-25.00, to black and the greatest, 102.9"),
          photo.reading().toString());
    }
  }

  @ParameterizedTest(name = "predictor {0}, tiles {1}, big {2}")
  @CsvSource({"1, 0, false", "2, 0, false", "2, 32, true", "1, 32, false", "2, 0, true"})
  void ownWriter_everyOrderAndTiling(int predictor, int tile, boolean big) throws IOException {
    Raster raster = words((x, y) -> Float.floatToIntBits((x * 7 + y * 3) % 101 / 4f - 3));
    for (ByteOrder order : new ByteOrder[] {ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN}) {
      TiffSample sample =
          new TiffSample(raster, 32).order(order).big(big).coding(8, predictor).field(339, 3, 3);
      sample = tile > 0 ? sample.tiles(tile) : sample.strips(9);
      try (DiePhoto photo = DiePhoto.open(sample.write(folder.resolve("die.tif")))) {
        float[] grey = grey(photo.pixels());
        for (int y = 0, i = 0; y < HEIGHT; y++) {
          for (int x = 0; x < WIDTH; x++, i++) {
            assertEquals((x * 7 + y * 3) % 101 / 100.0, grey[i], 0.51 * LEVEL);
          }
        }
      }
    }
  }

  @Test
  void paddingOfTiles_isNoPartOfTheRange() throws IOException {
    Raster raster =
        words((x, y) -> Float.floatToIntBits(x < 80 && y < 66 ? (x + y) % 2 : 1e30f * (x - 85)));
    TiffSample sample = new TiffSample(raster, 32).tiles(32).field(339, 3, 3);
    Path file = sample.field(256, 4, 80).field(257, 4, 66).write(folder.resolve("die.tif"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      float[] grey = grey(photo.pixels());
      for (int i = 0; i < grey.length; i++) {
        assertEquals((i % 80 + i / 80) % 2, grey[i]);
      }
    }
  }

  @Test
  void noFiniteSample_isRefused() {
    for (float v : new float[] {Float.NaN, Float.POSITIVE_INFINITY, Float.NEGATIVE_INFINITY}) {
      Path file = write((x, y) -> Float.floatToRawIntBits(v));
      DieInputException refused =
          assertThrows(DieInputException.class, () -> DiePhoto.open(file).close());
      assertEquals(Reason.FILE_UNREADABLE, refused.reason());
      assertTrue(refused.getMessage().contains("finite"), refused.getMessage());
    }
  }

  @Test
  void equalSamples_areRefusedAsEmptyFrame() {
    try (DiePhoto photo = DiePhoto.open(write((x, y) -> Float.floatToIntBits(0.7f)))) {
      DieInputException refused = assertThrows(DieInputException.class, photo::requireContent);
      assertEquals(Reason.PHOTO_WITHOUT_CONTENT, refused.reason());
      assertTrue(refused.getMessage().contains("is black"), refused.getMessage());
    }
  }

  /** Any bits are some samples: none may break the reader, and every level lies within 0 to 1. */
  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4})
  void anyBits_areRead(long seed) {
    Random random = new Random(seed);
    int[] words = random.ints(WIDTH * HEIGHT).toArray();
    words[5] = Float.floatToIntBits(-Float.MAX_VALUE);
    words[6] = Float.floatToIntBits(Float.MAX_VALUE);
    words[7] = Float.floatToIntBits(Float.POSITIVE_INFINITY);
    words[8] = Float.floatToIntBits(Float.NEGATIVE_INFINITY);
    words[9] = Float.floatToIntBits(Float.NaN);
    long others = 0;
    for (int word : words) {
      others += Float.isFinite(Float.intBitsToFloat(word)) ? 0 : 1;
    }
    try (DiePhoto photo = DiePhoto.open(write((x, y) -> words[y * WIDTH + x]))) {
      float[] grey = grey(photo.pixels());
      float[] told = {grey[5], grey[6], grey[7], grey[8], grey[9]};
      assertArrayEquals(new float[] {0, 1, 1, 0, 0}, told);
      for (int i = 0; i < grey.length; i++) {
        float v = Float.intBitsToFloat(words[i]);
        if (Float.isFinite(v)) {
          assertEquals(0.5 + v / 2.0 / Float.MAX_VALUE, grey[i], 0.51 * LEVEL + 1e-7);
        }
      }
      assertTrue(
          photo.reading().conversions().get(0).contains("(" + others + " samples are no finite"),
          photo.reading().toString());
    }
  }

  /** A field and the light on it are divided by each other, so no light must be 0. */
  @Test
  void levelsInProportion_areThoseOfTheSamples() throws IOException {
    IntBinaryOperator light = (x, y) -> Float.floatToIntBits(2 + 2 * ((x + y) % 5) / 4f);
    try (DiePhoto photo = DiePhoto.open(write(light))) {
      float[] grey = grey(photo.proportional());
      int[] rgb = new int[1];
      for (int x = 0; x < WIDTH; x++) {
        double share = (2 + 2 * (x % 5) / 4.0) / 4;
        assertEquals(share, grey[x], LEVEL);
        photo.proportional().readRgb(new PixelRect(x, 0, 1, 1), rgb);
        assertEquals(255 * share, rgb[0] & 0xff, 1.01);
      }
      assertEquals(0, grey(photo.pixels())[0]);
    }
  }

  /**
   * A hot pixel, in a row of which the levels are not sampled, takes the range: no 10-bit camera.
   */
  @Test
  void fewLevelsInUse_areNotTakenForThoseOfACamera() {
    IntBinaryOperator hot =
        (x, y) -> Float.floatToIntBits(x == 0 && y == 5 ? 1000 : (x + y) % 5 / 4f * 10);
    try (DiePhoto photo = DiePhoto.open(write(hot))) {
      assertEquals(16, photo.levels().bits());
    }
  }

  private Path write(IntBinaryOperator word) {
    return new TiffSample(words(word), 32).field(339, 3, 3).write(folder.resolve("die.tif"));
  }

  private static Raster words(IntBinaryOperator word) {
    SampleModel model = new BandedSampleModel(DataBuffer.TYPE_INT, WIDTH, HEIGHT, 1);
    WritableRaster raster = Raster.createWritableRaster(model, null);
    for (int y = 0; y < HEIGHT; y++) {
      for (int x = 0; x < WIDTH; x++) {
        raster.setSample(x, y, 0, word.applyAsInt(x, y));
      }
    }
    return raster;
  }

  private Path platformWrites(String coding, int bits, int samples) throws IOException {
    int type = bits == 32 ? DataBuffer.TYPE_FLOAT : DataBuffer.TYPE_DOUBLE;
    ColorSpace space =
        ColorSpace.getInstance(samples == 1 ? ColorSpace.CS_GRAY : ColorSpace.CS_sRGB);
    ComponentColorModel model =
        new ComponentColorModel(space, false, false, Transparency.OPAQUE, type);
    WritableRaster raster = model.createCompatibleWritableRaster(WIDTH, HEIGHT);
    Random random = new Random(bits + samples);
    for (int y = 0; y < HEIGHT; y++) {
      for (int x = 0; x < WIDTH; x++) {
        for (int s = 0; s < samples; s++) {
          raster.setSample(x, y, s, random.nextGaussian() * 40 + (x / 8 + y / 8) % 2 * 300);
        }
      }
    }
    Path file = folder.resolve("platform.tif");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("tiff").next();
    try (ImageOutputStream out = ImageIO.createImageOutputStream(file.toFile())) {
      ImageWriteParam how = writer.getDefaultWriteParam();
      if (!coding.equals("none")) {
        how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        how.setCompressionType(coding);
      }
      writer.setOutput(out);
      writer.write(
          null, new IIOImage(new BufferedImage(model, raster, false, null), null, null), how);
    } finally {
      writer.dispose();
    }
    return file;
  }

  private static Raster platformReads(Path file) throws IOException {
    ImageReader reader = ImageIO.getImageReadersByFormatName("tiff").next();
    try (ImageInputStream in = ImageIO.createImageInputStream(file.toFile())) {
      reader.setInput(in);
      return reader.read(0).getRaster();
    } finally {
      reader.dispose();
    }
  }

  private static float[] grey(PixelSource pixels) {
    float[] grey = new float[pixels.width() * pixels.height()];
    pixels.readGray(new PixelRect(0, 0, pixels.width(), pixels.height()), grey);
    return grey;
  }
}
