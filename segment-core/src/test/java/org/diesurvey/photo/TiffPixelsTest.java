package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The reference is the TIFF reader of the Java platform, an implementation of TIFF 6.0 that shares
 * no code with ours. It has no BigTIFF and no 16-bit predictor, so those are compared with the
 * picture that was written.
 */
class TiffPixelsTest {
  private static final int WIDTH = 150;
  private static final int HEIGHT = 117;

  @TempDir Path folder;

  private record Variant(
      int samples, int bits, int compression, int predictor, boolean planar, boolean tiled) {}

  static Stream<Variant> variants() {
    List<Variant> all = new ArrayList<>();
    int[] codings = {1, 5, 8, 32946, 32773};
    for (int coding : codings) {
      for (int samples = 1; samples <= 4; samples++) {
        for (int bits = 8; bits <= 16; bits += 8) {
          for (boolean planar : new boolean[] {false, true}) {
            for (boolean tiled : new boolean[] {false, true}) {
              all.add(new Variant(samples, bits, coding, 1, planar, tiled));
              if (coding == 5 || coding == 8 || coding == 32946) {
                all.add(new Variant(samples, bits, coding, 2, planar, tiled));
              }
            }
          }
        }
      }
    }
    return all.stream();
  }

  @ParameterizedTest
  @MethodSource("variants")
  void everyVariantMatchesThePlatformsReaderAndTheWrittenPicture(Variant v) throws IOException {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, v.samples, v.bits, 7);
    Random random = new Random(v.hashCode());
    for (ByteOrder order : new ByteOrder[] {ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN}) {
      for (boolean big : new boolean[] {false, true}) {
        TiffSample sample =
            new TiffSample(image.getRaster(), v.bits)
                .order(order)
                .big(big)
                .planar(v.planar && v.samples > 1)
                .coding(v.compression, v.predictor)
                .strips(13);
        Path file = (v.tiled ? sample.tiles(48) : sample).write(folder.resolve("die.tif"));
        try (DiePhoto photo = DiePhoto.open(file)) {
          assertEquals(v.samples, photo.info().samplesPerPixel());
          assertEquals("TIFF", photo.info().format());
          PixelRect whole = new PixelRect(0, 0, WIDTH, HEIGHT);
          assertSame(image.getRaster(), v.bits, photo.pixels(), whole);
          assertSame(image.getRaster(), v.bits, photo.pixels(), window(random));
          // The platform's reader has neither BigTIFF nor differences of 16-bit samples.
          if (!big && !(v.bits == 16 && v.predictor == 2)) {
            assertSame(platform(file), v.bits, photo.pixels(), window(random));
          }
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"8", "16"})
  void whiteIsZeroIsTurnedRound(int bits) {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, 1, bits, 8);
    Path file =
        new TiffSample(image.getRaster(), bits).whiteIsZero().write(folder.resolve("die.tif"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertSame(image.getRaster(), bits, photo.pixels(), new PixelRect(0, 0, WIDTH, HEIGHT));
    }
  }

  /** One long strip, which is read in pieces, and strips that do not divide evenly. */
  @ParameterizedTest
  @CsvSource({"2000", "700", "701"})
  void longStripsAreReadInPieces(int rows) {
    BufferedImage image = TestPictures.picture(800, 2000, 3, 8, 9);
    Path file = new TiffSample(image.getRaster(), 8).strips(rows).write(folder.resolve("die.tif"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertSame(image.getRaster(), 8, photo.pixels(), new PixelRect(300, 680, 90, 120));
      assertSame(image.getRaster(), 8, photo.pixels(), new PixelRect(0, 1900, 800, 100));
    }
  }

  @ParameterizedTest
  @CsvSource({"LZW", "Deflate", "PackBits", "ZLib", "JPEG"})
  void filesOfThePlatformsWriterAreRead(String coding) throws IOException {
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_3BYTE_BGR);
    image.getGraphics().drawImage(TestPictures.picture(WIDTH, HEIGHT, 3, 8, 4), 0, 0, null);
    Path file = folder.resolve("die.tif");
    var writer = ImageIO.getImageWritersByFormatName("tiff").next();
    var param = writer.getDefaultWriteParam();
    param.setCompressionMode(javax.imageio.ImageWriteParam.MODE_EXPLICIT);
    param.setCompressionType(coding);
    try (var out = ImageIO.createImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.write(null, new javax.imageio.IIOImage(image, null, null), param);
    }
    BufferedImage reference = ImageIO.read(file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      if (coding.equals("JPEG")) {
        assertWithinALevel(reference.getRaster(), photo.pixels());
      } else {
        assertSame(reference.getRaster(), 8, photo.pixels(), new PixelRect(0, 0, WIDTH, HEIGHT));
      }
    }
  }

  /** Decoders of JPEG may round differently (ITU-T T.83 allows for it, from memory). */
  private static void assertWithinALevel(Raster reference, PixelSource pixels) {
    int[] rgb = new int[WIDTH * HEIGHT];
    pixels.readRgb(new PixelRect(0, 0, WIDTH, HEIGHT), rgb);
    for (int i = 0; i < rgb.length; i++) {
      for (int b = 0; b < 3; b++) {
        int is = rgb[i] >> 8 * (2 - b) & 0xFF;
        assertEquals(reference.getSample(i % WIDTH, i / WIDTH, b), is, 1, "pixel " + i);
      }
    }
  }

  @Test
  void severalThreadsSeeTheSamePixels() throws Exception {
    BufferedImage image = TestPictures.picture(WIDTH, HEIGHT, 3, 16, 10);
    Path file =
        new TiffSample(image.getRaster(), 16)
            .coding(TiffSample.LZW, 2)
            .tiles(16)
            .write(folder.resolve("die.tif"));
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try (DiePhoto photo = DiePhoto.open(file)) {
      PixelRect whole = new PixelRect(0, 0, WIDTH, HEIGHT);
      List<Callable<float[]>> jobs = new ArrayList<>();
      for (int i = 0; i < 16; i++) {
        jobs.add(
            () -> {
              float[] gray = new float[WIDTH * HEIGHT];
              photo.pixels().readGray(whole, gray);
              return gray;
            });
      }
      assertSame(image.getRaster(), 16, photo.pixels(), whole);
      float[] expected = jobs.get(0).call();
      for (Future<float[]> got : threads.invokeAll(jobs)) {
        assertArrayEquals(expected, got.get());
      }
    } finally {
      threads.shutdownNow();
    }
  }

  /** Three gigapixels, 60,000 x 50,000, of which one tile is written and the others are holes. */
  @Test
  void giantTiledFileIsReadWhereAsked() throws IOException {
    Path file = folder.resolve("giant.tif");
    int side = 1024;
    int across = 59;
    int tiles = across * 49;
    long data = 1L << 17;
    int chosen = 30 * across + 40;
    ByteBuffer head = ByteBuffer.allocate(16 + 8 + 11 * 20 + 8 + tiles * 16);
    head.order(ByteOrder.LITTLE_ENDIAN).put((byte) 'I').put((byte) 'I');
    head.putShort((short) 43).putShort((short) 8).putShort((short) 0).putLong(16).putLong(11);
    int lists = 16 + 8 + 11 * 20 + 8;
    long[][] fields = {
      {256, 4, 1, 60_000},
      {257, 4, 1, 50_000},
      {258, 3, 1, 8},
      {259, 3, 1, 1},
      {262, 3, 1, 1},
      {277, 3, 1, 1},
      {284, 3, 1, 1},
      {322, 3, 1, side},
      {323, 3, 1, side},
      {324, 16, tiles, lists},
      {325, 16, tiles, lists + 8L * tiles}
    };
    for (long[] f : fields) {
      head.putShort((short) f[0]).putShort((short) f[1]).putLong(f[2]).putLong(f[3]);
    }
    head.putLong(0);
    head.putLong(lists + 8 * chosen, data);
    head.putLong(lists + 8 * tiles + 8 * chosen, (long) side * side);
    try (RandomAccessFile out = new RandomAccessFile(file.toFile(), "rw")) {
      out.write(head.array());
      byte[] tile = new byte[side * side];
      java.util.Arrays.fill(tile, (byte) 51);
      out.seek(data);
      out.write(tile);
    }
    // The holes make it look like a decompression bomb, which is what the default limit is for.
    assertThrows(DieInputException.class, () -> DiePhoto.open(file).close());
    try (DiePhoto photo = DiePhoto.open(file, new ReadLimits(1L << 32, 1L << 30, 1e6))) {
      float[] gray = new float[60 * 60];
      TiffPixels pixels = (TiffPixels) ((LevelledPixels) photo.pixels()).stored();
      pixels.readGray(new PixelRect(40 * side - 30, 30 * side, 60, 60), gray);
      assertEquals(0f, gray[29]);
      assertEquals(0.2f, gray[30], 1e-7);
      assertEquals(2L * side * side, pixels.heldBytes());
      for (int y = 0; y < 49 * side; y += side) {
        pixels.readGray(new PixelRect(0, y, 60_000, 1), new float[60_000]);
      }
      assertTrue(pixels.heldBytes() <= 128L << 20);
    }
  }

  @Test
  void formsThatAreNotReadAreRefusedByName() {
    Raster grey = TestPictures.picture(WIDTH, HEIGHT, 1, 8, 1).getRaster();
    refuse("8-bit floating-point", new TiffSample(grey, 8).field(339, 3, 3));
    refuse("signed", new TiffSample(grey, 8).field(339, 3, 2));
    refuse("complex", new TiffSample(grey, 8).field(339, 3, 6));
    refuse("32-bit", new TiffSample(grey, 8).field(258, 3, 32));
    refuse("compression code 4", new TiffSample(grey, 8).field(259, 3, 4));
    refuse("predictor 3", new TiffSample(grey, 8).field(317, 3, 3));
    refuse("preview", new TiffSample(grey, 8).field(254, 4, 1));
    refuse(
        "YCbCr",
        new TiffSample(TestPictures.picture(WIDTH, HEIGHT, 3, 8, 1).getRaster(), 8)
            .field(262, 3, 6));
  }

  @Test
  void stripsOutsideTheFileAreRefused() {
    Raster grey = TestPictures.picture(WIDTH, HEIGHT, 1, 8, 1).getRaster();
    Path file = new TiffSample(grey, 8).field(273, 4, 0xfffffff0L).write(folder.resolve("die.tif"));
    DieInputException refused =
        assertThrows(DieInputException.class, () -> DiePhoto.open(file).close());
    assertEquals(Reason.FILE_TRUNCATED, refused.reason());
  }

  private void refuse(String seen, TiffSample sample) {
    Path file = sample.write(folder.resolve("die.tif"));
    DieInputException refused =
        assertThrows(DieInputException.class, () -> DiePhoto.open(file).close());
    assertEquals(Reason.FORMAT_UNSUPPORTED, refused.reason());
    assertTrue(refused.getMessage().contains(seen), refused.getMessage());
  }

  private static PixelRect window(Random random) {
    int x = random.nextInt(WIDTH - 1);
    int y = random.nextInt(HEIGHT - 1);
    return new PixelRect(
        x, y, 1 + random.nextInt(WIDTH - x - 1), 1 + random.nextInt(HEIGHT - y - 1));
  }

  private static Raster platform(Path file) throws IOException {
    ImageReader reader = ImageIO.getImageReadersByFormatName("tiff").next();
    try (ImageInputStream in = ImageIO.createImageInputStream(file.toFile())) {
      reader.setInput(in);
      return reader.readRaster(0, null);
    } catch (UnsupportedOperationException e) {
      try (ImageInputStream in = ImageIO.createImageInputStream(file.toFile())) {
        reader.setInput(in);
        return reader.read(0).getRaster();
      }
    } finally {
      reader.dispose();
    }
  }

  private static void assertSame(Raster reference, int bits, PixelSource pixels, PixelRect window) {
    BufferedImage image = TestPictures.picture(1, 1, reference.getNumBands(), bits, 1);
    BufferedImage wrapped =
        new BufferedImage(
            image.getColorModel(), (java.awt.image.WritableRaster) reference, false, null);
    DiePhotoTest.assertSame(wrapped, bits, pixels, window);
  }
}
