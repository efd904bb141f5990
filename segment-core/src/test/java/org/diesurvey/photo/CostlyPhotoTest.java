package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.zip.CRC32;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageOutputStream;
import org.diesurvey.DieInputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Small files that would cost much are refused on their structure, before they are decoded. */
class CostlyPhotoTest {
  @TempDir Path folder;

  @Test
  void progressiveJpegOfManyEmptyScans_isRefused() throws IOException {
    Path file = progressive();
    byte[] whole = Files.readAllBytes(file);
    // Scan header (T.81, B.2.3): component 1, coefficients 1 to 63, refining bit 0.
    byte[] scan = {-1, (byte) 0xda, 0, 8, 1, 1, 0, 1, 63, 0x10};
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(whole, 0, whole.length - 2);
    for (int i = 0; i < 2000; i++) {
      out.write(scan);
    }
    out.write(whole, whole.length - 2, 2);
    Files.write(file, out.toByteArray());
    assertTrue(refusal(file).contains("more than 100 scans"), refusal(file));
  }

  @Test
  void ordinaryProgressiveJpeg_isRead() throws IOException {
    try (DiePhoto photo = DiePhoto.open(progressive())) {
      assertEquals(160, photo.info().widthPx());
    }
  }

  @Test
  void jpegOfFillBytes_isRefused_inItsHeaderAndBetweenScans() throws IOException {
    Path file = progressive();
    byte[] whole = Files.readAllBytes(file);
    byte[] fill = new byte[5_000_000];
    Arrays.fill(fill, (byte) 0xff);
    for (int at : new int[] {2, whole.length - 2}) {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      out.write(whole, 0, at);
      out.write(fill);
      out.write(whole, at, whole.length - at);
      Files.write(file, out.toByteArray());
      assertTrue(refusal(file).contains("only fill it up"), refusal(file));
    }
  }

  @Test
  void pngOfManyEmptyChunks_isRefused() throws IOException {
    Path file = TestPictures.write(TestPictures.picture(160, 120, 3, 8, 3), "png", path("a.png"));
    byte[] whole = Files.readAllBytes(file);
    int afterHeader = 33;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(whole, 0, afterHeader);
    byte[] empty = chunk("tEXt");
    for (int i = 0; i < 400_000; i++) {
      out.write(empty);
    }
    out.write(whole, afterHeader, whole.length - afterHeader);
    Files.write(file, out.toByteArray());
    assertTrue(refusal(file).contains("chunks"), refusal(file));
  }

  private static byte[] chunk(String type) {
    CRC32 crc = new CRC32();
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    crc.update(name);
    return ByteBuffer.allocate(12).putInt(0).put(name).putInt((int) crc.getValue()).array();
  }

  private static String refusal(Path file) {
    return assertThrows(DieInputException.class, () -> DiePhoto.open(file).close()).getMessage();
  }

  private Path progressive() throws IOException {
    BufferedImage image = TestPictures.picture(160, 120, 3, 8, 7);
    Path file = path("progressive.jpg");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    try (FileImageOutputStream out = new FileImageOutputStream(file.toFile())) {
      ImageWriteParam how = writer.getDefaultWriteParam();
      how.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), how);
    } finally {
      writer.dispose();
    }
    return file;
  }

  private Path path(String name) {
    return folder.resolve(name);
  }
}
