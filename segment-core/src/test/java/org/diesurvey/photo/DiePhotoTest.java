package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DiePhotoTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"1,8", "2,8", "3,8", "4,8", "1,16", "2,16", "3,16", "4,16"})
  void pngSamplesComeOutAsStored(int samples, int bits) {
    BufferedImage image = TestPictures.picture(91, 70, samples, bits, 3);
    Path file = TestPictures.write(image, "png", folder.resolve("die.png"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertEquals(bits, photo.info().bitsPerSample());
      assertEquals(samples, photo.info().samplesPerPixel());
      assertEquals("PNG", photo.info().format());
      assertSame(image, bits, photo.pixels(), new PixelRect(0, 0, 91, 70));
      assertSame(image, bits, photo.pixels(), new PixelRect(17, 30, 40, 40));
    }
  }

  @ParameterizedTest
  @CsvSource({"1", "3"})
  void jpegMatchesThePlatformsOwnPicture(int samples) throws IOException {
    BufferedImage image = TestPictures.picture(130, 97, samples, 8, 4);
    Path file = TestPictures.write(image, "jpeg", folder.resolve("die.jpg"));
    BufferedImage reference = ImageIO.read(file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertEquals("JPEG", photo.info().format());
      assertSame(reference, 8, photo.pixels(), new PixelRect(3, 5, 120, 90));
    }
  }

  @Test
  void whiteIsExactlyOne() {
    Path file = TestPictures.write(whiteRgb(), "png", folder.resolve("white.png"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      float[] gray = new float[1];
      photo.pixels().readGray(new PixelRect(5, 5, 1, 1), gray);
      assertEquals(1f, gray[0]);
    }
  }

  /** SHA-256 of the same bytes by an independent call of the platform. */
  @Test
  void fingerprintIsThatOfTheFile() throws Exception {
    Path file =
        TestPictures.write(
            TestPictures.picture(700, 700, 3, 8, 5), "png", folder.resolve("die.png"));
    byte[] digest =
        java.security.MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertEquals(java.util.HexFormat.of().formatHex(digest), photo.info().sha256());
      assertEquals(Files.size(file), photo.info().fileBytes());
    }
  }

  @Test
  void badPathsAreRefused() throws IOException {
    refuse(Reason.FILE_MISSING, folder.resolve("none.png"));
    refuse(Reason.FILE_IS_DIRECTORY, folder);
    refuse(Reason.FILE_EMPTY, Files.createFile(folder.resolve("empty.png")));
    refuse(Reason.FORMAT_UNKNOWN, Files.writeString(folder.resolve("text.png"), "not a picture"));
  }

  @ParameterizedTest
  @CsvSource({"png,1,1", "png,63,200", "jpeg,200,63", "tiff,1,1"})
  void smallPicturesAreRefused(String format, int width, int height) {
    refuse(
        Reason.PHOTO_TOO_SMALL,
        TestPictures.write(
            TestPictures.flat(width, height, 90), format, folder.resolve("small." + format)));
  }

  @ParameterizedTest
  @CsvSource({"png", "jpeg", "tiff"})
  void truncatedFilesAreRefused(String format) throws IOException {
    BufferedImage image = TestPictures.picture(150, 150, 3, 8, 6);
    Path file = TestPictures.write(image, format, folder.resolve("whole"));
    byte[] bytes = Files.readAllBytes(file);
    for (double share : new double[] {0.3, 0.6, 0.9}) {
      int length = (int) (share * bytes.length);
      Path cut = Files.write(folder.resolve("cut"), Arrays.copyOf(bytes, length));
      refuse(Reason.FILE_TRUNCATED, cut);
    }
  }

  /** A JPEG whose data stop early but which still carries an end mark. */
  @Test
  void jpegWithMissingMiddleIsRefused() throws IOException {
    BufferedImage image = TestPictures.picture(300, 300, 3, 8, 6);
    Path file = TestPictures.write(image, "jpeg", folder.resolve("whole"));
    byte[] bytes = Files.readAllBytes(file);
    byte[] cut = Arrays.copyOf(bytes, bytes.length / 2);
    cut[cut.length - 2] = (byte) 0xff;
    cut[cut.length - 1] = (byte) 0xd9;
    Path broken = Files.write(folder.resolve("broken.jpg"), cut);
    assertThrows(DieInputException.class, () -> DiePhoto.open(broken).close());
  }

  /** Palettes and single bits become what they show. */
  @ParameterizedTest(name = "{0} of type {1}")
  @CsvSource({"png,13", "tiff,13", "bmp,13", "png,12", "tiff,12", "bmp,5"})
  void palettesAndBits_areWrittenOut(String format, int type) throws IOException {
    BufferedImage seen = TestPictures.picture(101, 90, 3, 8, 4);
    BufferedImage stored = new BufferedImage(101, 90, type);
    stored.createGraphics().drawImage(seen, 0, 0, null);
    Path file = TestPictures.write(stored, format, folder.resolve("few." + format));
    try (DiePhoto photo = DiePhoto.open(file)) {
      int[] rgb = new int[101 * 90];
      photo.pixels().readRgb(new PixelRect(0, 0, 101, 90), rgb);
      for (int i = 0; i < rgb.length; i++) {
        assertEquals(stored.getRGB(i % 101, i / 101) & 0xffffff, rgb[i]);
      }
      assertEquals(8, photo.info().bitsPerSample());
      assertEquals(type == 5 ? 0 : 1, photo.reading().conversions().size());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "0000000c6a5020200d0a870a, JPEG 2000",
    "00000018667479706865696300000000, HEIC",
    "524946460000000057454250, WebP"
  })
  void otherFormats_areNamedWithAConversion(String hex, String name) throws IOException {
    byte[] head = java.util.HexFormat.of().parseHex(hex);
    Path file = Files.write(folder.resolve("other.bin"), Arrays.copyOf(head, 500));
    String message = refuse(Reason.FORMAT_UNKNOWN, file);
    assertTrue(message.contains(name) && message.contains("magick"), message);
  }

  @Test
  void largePicturesAreRefusedByTheirHeader() {
    Path file =
        TestPictures.write(
            TestPictures.picture(200, 100, 1, 8, 1), "png", folder.resolve("die.png"));
    ReadLimits limits = ReadLimits.defaults().withMaxPixels(19_999);
    DieInputException refused =
        assertThrows(DieInputException.class, () -> DiePhoto.open(file, limits).close());
    assertEquals(Reason.PHOTO_TOO_LARGE, refused.reason());
  }

  @ParameterizedTest
  @CsvSource({"0", "255", "100"})
  void framesWithoutContentAreRefused(int level) {
    Path file =
        TestPictures.write(TestPictures.flat(200, 150, level), "png", folder.resolve("flat.png"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      DieInputException refused = assertThrows(DieInputException.class, photo::requireContent);
      assertEquals(Reason.PHOTO_WITHOUT_CONTENT, refused.reason());
    }
  }

  @Test
  void picturesPassTheContentCheck() {
    Path file =
        TestPictures.write(
            TestPictures.picture(200, 150, 3, 16, 2), "png", folder.resolve("die.png"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      photo.requireContent();
    }
  }

  private String refuse(Reason reason, Path file) {
    DieInputException refused =
        assertThrows(DieInputException.class, () -> DiePhoto.open(file).close());
    assertEquals(reason, refused.reason(), refused.getMessage());
    assertTrue(refused.getMessage().contains(file.toString()), refused.getMessage());
    assertTrue(refused.getMessage().endsWith("."), refused.getMessage());
    return refused.getMessage();
  }

  private static BufferedImage whiteRgb() {
    BufferedImage image = new BufferedImage(80, 80, BufferedImage.TYPE_3BYTE_BGR);
    int[] row = new int[80 * 80];
    Arrays.fill(row, 0xffffff);
    image.setRGB(0, 0, 80, 80, row, 0, 80);
    return image;
  }

  static void assertSame(BufferedImage reference, int bits, PixelSource pixels, PixelRect window) {
    float[] gray = new float[window.width() * window.height()];
    int[] rgb = new int[gray.length];
    pixels.readGray(window, gray);
    pixels.readRgb(window, rgb);
    for (int y = 0; y < window.height(); y++) {
      for (int x = 0; x < window.width(); x++) {
        int i = y * window.width() + x;
        int px = window.x() + x;
        int py = window.y() + y;
        double luma = TestPictures.luma(reference.getRaster(), px, py, bits);
        if (!(Math.abs(luma - gray[i]) <= 1e-6)) {
          fail("grey at " + px + ", " + py + " is " + gray[i] + ", should be " + luma);
        }
        assertEquals(TestPictures.rgb(reference.getRaster(), px, py, bits), rgb[i]);
      }
    }
  }
}
