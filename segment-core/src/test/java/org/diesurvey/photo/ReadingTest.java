package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalInt;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Which of a file's pictures is read, how it is turned, and pixels that come from no file. */
class ReadingTest {
  private static final int W = 90;
  private static final int H = 70;

  @TempDir private Path folder;

  private static int[] rgb(DiePhoto photo) {
    PixelSource p = photo.pixels();
    int[] all = new int[p.width() * p.height()];
    p.readRgb(new PixelRect(0, 0, p.width(), p.height()), all);
    return all;
  }

  private static float[] grey(DiePhoto photo) {
    PixelSource p = photo.pixels();
    float[] all = new float[p.width() * p.height()];
    p.readGray(new PixelRect(0, 0, p.width(), p.height()), all);
    return all;
  }

  /**
   * TIFF 6.0, section 8, Orientation: which side of the picture the file's first row and first
   * column are: 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7
   * right bottom, 8 left bottom.
   */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
  void orientation_isApplied(int code) {
    BufferedImage image = TestPictures.picture(W, H, 1, 8, 3);
    Path file =
        new TiffSample(image.getRaster(), 8).field(274, 3, code).write(folder.resolve("o.tif"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      int w = code >= 5 ? H : W;
      int h = code >= 5 ? W : H;
      assertEquals(w, photo.info().widthPx());
      assertEquals(h, photo.pixels().height());
      assertEquals(code, photo.reading().orientation());
      float[] seen = grey(photo);
      for (int row = 0; row < H; row++) {
        for (int column = 0; column < W; column++) {
          int a = code >= 5 ? row : column;
          int b = code >= 5 ? column : row;
          // The first row is at the bottom for 3 and 4, at the right for 6 and 7, and so on.
          int x = code == 2 || code == 3 || code == 6 || code == 7 ? w - 1 - a : a;
          int y = code == 3 || code == 4 || code == 7 || code == 8 ? h - 1 - b : b;
          assertEquals(
              image.getRaster().getSample(column, row, 0) / 255f, seen[y * w + x], "code " + code);
        }
      }
      float[] part = new float[12];
      photo.pixels().readGray(new PixelRect(5, 9, 3, 4), part);
      assertEquals(seen[10 * w + 6], part[4], "windows too");
    }
  }

  /** An EXIF block as cameras write it: orientation 6 and 20000 px a centimetre. */
  @Test
  void exifOfAJpeg_isUsed() throws IOException {
    Path plain =
        TestPictures.write(TestPictures.picture(W, H, 1, 8, 3), "jpeg", folder.resolve("p.jpg"));
    ByteBuffer exif = ByteBuffer.allocate(6 + 8 + 2 + 36 + 4 + 8);
    exif.put("Exif\0\0MM\0*".getBytes(StandardCharsets.ISO_8859_1)).putInt(8).putShort((short) 3);
    exif.putShort((short) 274)
        .putShort((short) 3)
        .putInt(1)
        .putShort((short) 6)
        .putShort((short) 0);
    exif.putShort((short) 282).putShort((short) 5).putInt(1).putInt(50);
    exif.putShort((short) 296)
        .putShort((short) 3)
        .putInt(1)
        .putShort((short) 3)
        .putShort((short) 0);
    exif.putInt(0).putInt(20_000).putInt(1);
    byte[] jpeg = Files.readAllBytes(plain);
    ByteArrayOutputStream with = new ByteArrayOutputStream();
    with.write(jpeg, 0, 2);
    with.write(new byte[] {(byte) 0xff, (byte) 0xe1, 0, (byte) (exif.capacity() + 2)});
    with.writeBytes(exif.array());
    with.write(jpeg, 2, jpeg.length - 2);
    Path file = Files.write(folder.resolve("e.jpg"), with.toByteArray());
    try (DiePhoto photo = DiePhoto.open(file)) {
      assertEquals(6, photo.reading().orientation());
      assertEquals(H, photo.pixels().width());
      assertEquals(0.5, photo.info().taggedScale().orElseThrow().umPerPx(), 1e-12);
    }
  }

  /** Pixels per unit in XResolution, the unit in the description, no unit of TIFF's own. */
  @ParameterizedTest
  @CsvSource({"micron,2,0.5", "um,4,0.25", "\\u00B5m,2,0.5", "nm,1/500,500", "pixel,2,0"})
  void scaleOfImageJ_isRead(String unit, String perUnit, double umPerPx) {
    double density = perUnit.startsWith("1/") ? 1 / Double.parseDouble(perUnit.substring(2)) : 0;
    double d = density > 0 ? density : Double.parseDouble(perUnit);
    var scale = TiffScale.ofImageJ("ImageJ=1.54f\nimages=1\nunit=" + unit + "\nloop=false\n", d);
    double expected = unit.equals("nm") ? 0.5 : umPerPx;
    assertEquals(expected, scale.map(PhotoInfo.TaggedScale::umPerPx).orElse(0.0), 1e-12);
  }

  @Test
  void planeOfAStack_isChosenAndNamed() throws IOException {
    BufferedImage[] pages = new BufferedImage[3];
    Path file = folder.resolve("stack.tif");
    ImageWriter writer = ImageIO.getImageWritersByFormatName("tiff").next();
    try (FileImageOutputStream out = new FileImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.prepareWriteSequence(null);
      for (int i = 0; i < 3; i++) {
        pages[i] = TestPictures.picture(W, H, 1, 8, i);
        writer.writeToSequence(new IIOImage(pages[i], null, null), null);
      }
      writer.endWriteSequence();
    }
    for (int i = 0; i < 3; i++) {
      try (DiePhoto photo = DiePhoto.open(file, ReadLimits.defaults(), OptionalInt.of(i + 1))) {
        assertEquals(pages[i].getRaster().getSample(7, 5, 0) / 255f, grey(photo)[5 * W + 7]);
        assertEquals(new Reading(i + 1, 3, 1, java.util.List.of()), photo.reading());
      }
    }
    DieInputException none =
        assertThrows(
            DieInputException.class,
            () -> DiePhoto.open(file, ReadLimits.defaults(), OptionalInt.of(4)));
    assertEquals(Reason.PLANE_UNKNOWN, none.reason());
  }

  /** ImageJ writes large stacks as one directory with the planes behind each other. */
  @Test
  void planesWithoutDirectories_areFound() {
    BufferedImage both = TestPictures.picture(W, 2 * H, 1, 8, 3);
    byte[] text = "ImageJ=1.54f\nimages=2\n\0".getBytes(StandardCharsets.US_ASCII);
    long[] field = new long[text.length + 1];
    field[0] = 2;
    for (int i = 0; i < text.length; i++) {
      field[i + 1] = text[i];
    }
    Path file =
        new TiffSample(both.getRaster(), 8)
            .field(257, 4, H)
            .field(278, 4, H)
            .field(279, 4, W * H)
            .field(270, field)
            .write(folder.resolve("j.tif"));
    try (DiePhoto photo = DiePhoto.open(file, ReadLimits.defaults(), OptionalInt.of(2))) {
      assertEquals(H, photo.pixels().height());
      assertEquals(both.getRaster().getSample(7, H + 5, 0) / 255f, grey(photo)[5 * W + 7]);
    }
  }

  /** Inks over white: light is what neither the ink nor black takes away. */
  @Test
  void inks_becomeLight() {
    BufferedImage four = TestPictures.picture(W, H, 4, 8, 1);
    Path file = new TiffSample(four.getRaster(), 8).field(262, 3, 5).write(folder.resolve("k.tif"));
    try (DiePhoto photo = DiePhoto.open(file)) {
      int[] p = four.getRaster().getPixel(20, 30, (int[]) null);
      int red = (int) Math.rint((255 - p[0]) * (255 - p[3]) / 255.0);
      assertEquals(red, rgb(photo)[30 * W + 20] >> 16, 1);
      assertEquals(1, photo.reading().conversions().size());
    }
  }

  @Test
  void pixelsFromMemory_areThoseOfTheFile() {
    BufferedImage image = TestPictures.picture(W, H, 3, 8, 5);
    byte[] samples = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    Path file = TestPictures.write(image, "png", folder.resolve("die.png"));
    try (DiePhoto read = DiePhoto.open(file);
        DiePhoto drawn = DiePhoto.of("die", image);
        DiePhoto array = DiePhoto.of("die", samples, W, H, 3);
        DiePhoto source = DiePhoto.of("die", read.pixels())) {
      for (DiePhoto other : new DiePhoto[] {drawn, array, source}) {
        assertArrayEquals(grey(read), grey(other));
        assertArrayEquals(rgb(read), rgb(other));
        assertEquals(drawn.info().sha256(), other.info().sha256(), "equal pixels, equal sums");
      }
      assertEquals("MEMORY", array.info().format());
    }
    short[] wide = new short[W * H];
    for (int i = 0; i < wide.length; i++) {
      wide[i] = (short) (i % 4096);
    }
    try (DiePhoto photo = DiePhoto.of("die", wide, W, H, 1)) {
      assertEquals(12, photo.levels().bits());
      assertEquals(1, grey(photo)[4095], 1e-6);
    }
    assertThrows(IllegalArgumentException.class, () -> DiePhoto.of("die", wide, W, H, 3));
    assertThrows(DieInputException.class, () -> DiePhoto.of("die", new byte[63 * 63], 63, 63, 1));
  }
}
