package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.diesurvey.DieInputException;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Seeded damage: whatever the bytes are, a photograph is read or refused, nothing else. */
class DamagedPhotoTest {
  private static final int ROUNDS = 200;

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"png", "jpeg", "tiff-lzw", "tiff-deflate", "tiff-packbits", "bigtiff"})
  void damagedBytesAreReadOrRefused(String kind) throws IOException {
    byte[] whole = Files.readAllBytes(sample(kind));
    Random random = new Random(kind.hashCode());
    int refused = 0;
    for (int round = 0; round < ROUNDS; round++) {
      byte[] bytes = whole.clone();
      int hits = 1 + random.nextInt(8);
      for (int i = 0; i < hits; i++) {
        // Headers and directories lie at both ends, so most of the damage goes there.
        int reach = random.nextBoolean() ? bytes.length : Math.min(bytes.length, 300);
        int at = random.nextInt(reach);
        bytes[random.nextBoolean() ? at : bytes.length - 1 - at] = (byte) random.nextInt(256);
      }
      if (random.nextInt(4) == 0) {
        bytes = Arrays.copyOf(bytes, 1 + random.nextInt(bytes.length));
      }
      refused += readOrRefuse(Files.write(folder.resolve("damaged"), bytes)) ? 0 : 1;
    }
    assertTrue(refused > ROUNDS / 10, "refused " + refused);
  }

  /** True if the file was read; any other failure than a refusal ends the test. */
  private static boolean readOrRefuse(Path file) {
    try (DiePhoto photo = DiePhoto.open(file)) {
      PixelSource pixels = photo.pixels();
      assertEquals(photo.info().widthPx(), pixels.width());
      int rows = Math.min(pixels.height(), 200);
      int columns = Math.min(pixels.width(), 200);
      pixels.readGray(new PixelRect(0, 0, columns, rows), new float[columns * rows]);
      return true;
    } catch (DieInputException e) {
      assertTrue(e.getMessage().endsWith("."), e.getMessage());
      return false;
    }
  }

  private Path sample(String kind) {
    BufferedImage image = TestPictures.picture(150, 120, 3, 8, 12);
    Path file = folder.resolve("whole");
    TiffSample tiff = new TiffSample(image.getRaster(), 8).strips(16);
    return switch (kind) {
      case "tiff-lzw" -> tiff.coding(TiffSample.LZW, 2).write(file);
      case "tiff-deflate" -> tiff.coding(TiffSample.DEFLATE, 2).tiles(48).write(file);
      case "tiff-packbits" -> tiff.coding(TiffSample.PACK_BITS, 1).planar(true).write(file);
      case "bigtiff" -> tiff.big(true).tiles(64).write(file);
      default -> TestPictures.write(image, kind, file);
    };
  }
}
