package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Element;

class LabelTiffTest {
  @TempDir Path folder;

  /** The small survey as if its photograph had more rows than a strip and 64 px at least. */
  private static Survey tall(boolean scaled) {
    Survey s = SmallSurvey.of(scaled, "die <1>.png");
    PhotoInfo p = s.photo();
    return new Survey(
        new PhotoInfo(
            p.fileName(), p.sha256(), p.fileBytes(), p.format(), 70, 150, 8, 1, p.taggedScale()),
        s.method(),
        s.scale(),
        new DieFrame(
            true,
            s.die().outlinePx(),
            0,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            s.die().areaPx()),
        s.preparation(),
        s.regions(),
        s.totals(),
        s.notices(),
        Optional.empty());
  }

  @ParameterizedTest(name = "OME {0}, scaled {1}")
  @CsvSource({"false,true", "true,true", "false,false", "true,false"})
  void map_isReadByThePlatformAndByOurOwnReader(boolean ome, boolean scaled) throws Exception {
    Survey survey = tall(scaled);
    Path file = folder.resolve("map.tif");
    LabelTiff.write(survey, ome, file);
    LabelRaster expected = LabelMap.of(survey);
    BufferedImage image = ImageIO.read(file.toFile());
    assertEquals(BufferedImage.TYPE_BYTE_GRAY, image.getType());
    byte[] row = new byte[70];
    for (int y = 0; y < 150; y++) {
      image.getRaster().getDataElements(0, y, 70, 1, row);
      byte[] wanted = new byte[70];
      System.arraycopy(expected.array(), y * 70, wanted, 0, 70);
      assertArrayEquals(wanted, row, "row " + y);
    }
    try (DiePhoto photo = DiePhoto.open(file)) {
      float[] grey = new float[70 * 150];
      photo.pixels().readGray(new PixelRect(0, 0, 70, 150), grey);
      for (int i = 0; i < grey.length; i++) {
        assertEquals((expected.array()[i] & 0xff) / 255f, grey[i], 1e-6);
      }
      assertEquals(scaled, photo.info().taggedScale().isPresent());
      if (scaled) {
        assertEquals(2, photo.info().taggedScale().get().umPerPx(), 1e-6);
      }
    }
  }

  /** Members of the OME schema 2016-06, from memory: sizes, physical sizes and their unit. */
  @Test
  void omeXml_isWellFormed_andStatesThePhysicalSize() throws Exception {
    Path file = folder.resolve("map.ome.tif");
    LabelTiff.write(tall(true), true, file);
    String bytes = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
    String xml = bytes.substring(bytes.indexOf("<?xml"), bytes.indexOf("</OME>") + 6);
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    var document =
        factory
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
    Element pixels =
        (Element)
            document
                .getElementsByTagNameNS(
                    "http://www.openmicroscopy.org/Schemas/OME/2016-06", "Pixels")
                .item(0);
    assertEquals("70", pixels.getAttribute("SizeX"));
    assertEquals("150", pixels.getAttribute("SizeY"));
    assertEquals("2.0", pixels.getAttribute("PhysicalSizeX"));
    assertEquals("\u00b5m", pixels.getAttribute("PhysicalSizeYUnit"));
    assertEquals("uint8", pixels.getAttribute("Type"));
    assertTrue(
        document.getDocumentElement().getTextContent().contains("die <1>.png"), "name stays text");
  }
}
