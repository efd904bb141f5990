package org.diesurvey.photo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.CRC32;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TaggedScaleTest {
  @TempDir Path folder;

  /** TIFF 6.0, section 8: pixels per ResolutionUnit; 1 none, 2 inch (25.4 mm), 3 centimetre. */
  @ParameterizedTest
  @CsvSource({
    "2,300,1,84.6666667",
    "3,20000,1,0.5",
    "3,40000,2,0.5",
    "2,72,1,0",
    "1,300,1,0",
    "3,0,1,0",
    "3,5,0,0"
  })
  void tiffResolution(int unit, long numerator, long denominator, double umPerPx) {
    Path file =
        sample()
            .field(282, 5, numerator, denominator)
            .field(283, 5, numerator, denominator)
            .field(296, 3, unit)
            .write(folder.resolve("die.tif"));
    assertScale(umPerPx, "TIFF XResolution", file);
  }

  /** OME data model 2016-06: PhysicalSizeX in micrometres unless a unit says otherwise. */
  @ParameterizedTest
  @CsvSource({
    "PhysicalSizeX='0.25',0.25",
    "PhysicalSizeX='250' PhysicalSizeXUnit='nm',0.25",
    "PhysicalSizeX='0.25' PhysicalSizeXUnit='\u00b5m',0.25",
    "PhysicalSizeX='0.001' PhysicalSizeXUnit='mm',1",
    "PhysicalSizeX='7' PhysicalSizeXUnit='pixel',0",
    "PhysicalSizeX='many',0",
    "SizeX='5',0"
  })
  void omeXml(String attributes, double umPerPx) {
    String quoted = attributes.replace("'", "\"");
    assertScale(umPerPx, "OME-XML PhysicalSizeX", ome("<Image><Pixels " + quoted + "/></Image>"));
  }

  @Test
  void documentTypesInOmeXmlAreNotFollowed() {
    String text =
        "<!DOCTYPE OME [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>"
            + "<OME><Pixels PhysicalSizeX=\"1\">&e;</Pixels></OME>";
    assertEquals(Optional.empty(), TiffScale.ofOmeXml(text));
  }

  /** ISO/IEC 15948, 11.3.5.3: pixels per unit, unit 1 is the metre. */
  @ParameterizedTest
  @CsvSource({"2000000,1,0.5", "2000000,0,0", "3937,1,0"})
  void pngPhys(int perUnit, int unit, double umPerPx) throws IOException {
    Path plain =
        TestPictures.write(
            TestPictures.picture(80, 80, 1, 8, 1), "png", folder.resolve("plain.png"));
    byte[] bytes = Files.readAllBytes(plain);
    ByteBuffer chunk = ByteBuffer.allocate(21);
    chunk.putInt(9).put("pHYs".getBytes(StandardCharsets.US_ASCII));
    chunk.putInt(perUnit).putInt(perUnit).put((byte) unit);
    CRC32 crc = new CRC32();
    crc.update(chunk.array(), 4, 13);
    chunk.putInt((int) crc.getValue());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(bytes, 0, 33);
    out.writeBytes(chunk.array());
    out.write(bytes, 33, bytes.length - 33);
    assertScale(umPerPx, "PNG pHYs", Files.write(folder.resolve("die.png"), out.toByteArray()));
  }

  /** ITU-T T.871, 10.1: unit 1 dots per inch, 2 dots per centimetre, 0 only a ratio. */
  @ParameterizedTest
  @CsvSource({"1,300,84.6666667", "2,20000,0.5", "0,300,0"})
  void jfifDensity(int unit, int density, double umPerPx) throws IOException {
    Path plain =
        TestPictures.write(
            TestPictures.picture(80, 80, 3, 8, 1), "jpeg", folder.resolve("plain.jpg"));
    byte[] bytes = Files.readAllBytes(plain);
    assertEquals('J', bytes[6]);
    bytes[13] = (byte) unit;
    ByteBuffer.wrap(bytes).putShort(14, (short) density).putShort(16, (short) density);
    assertScale(umPerPx, "JPEG JFIF density", Files.write(folder.resolve("die.jpg"), bytes));
  }

  private static TiffSample sample() {
    return new TiffSample(TestPictures.picture(80, 80, 1, 8, 1).getRaster(), 8);
  }

  private Path ome(String body) {
    String xml = "<OME xmlns=\"http://www.openmicroscopy.org/Schemas/OME/2016-06\">";
    byte[] text = (xml + body + "</OME>\0").getBytes(StandardCharsets.UTF_8);
    long[] field = new long[text.length + 1];
    field[0] = 2;
    for (int i = 0; i < text.length; i++) {
      field[i + 1] = text[i];
    }
    return sample().field(270, field).write(folder.resolve("die.ome.tif"));
  }

  private static void assertScale(double umPerPx, String origin, Path file) {
    try (DiePhoto photo = DiePhoto.open(file)) {
      Optional<TaggedScale> scale = photo.info().taggedScale();
      assertEquals(umPerPx > 0, scale.isPresent());
      scale.ifPresent(s -> assertEquals(umPerPx, s.umPerPx(), 1e-6));
      scale.ifPresent(s -> assertTrue(s.origin().startsWith(origin), s.origin()));
    }
  }
}
