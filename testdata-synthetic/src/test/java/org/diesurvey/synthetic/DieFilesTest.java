package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DieFilesTest {
  @TempDir Path folder;

  @Test
  void writtenFiles_holdTheDie() throws Exception {
    DrawnDie die =
        DieDrawing.draw(11, DrawOptions.defaults().withMaxMegapixels(0.5).withUmPerPx(1.6));
    for (DieFiles.Format format : DieFiles.Format.values()) {
      Path photo = DieFiles.write(die, folder, "die", format);
      BufferedImage back = ImageIO.read(photo.toFile());
      assertEquals(die.widthPx(), back.getWidth());
      assertEquals(die.heightPx(), back.getHeight());
      if (format != DieFiles.Format.JPG) {
        int i = (die.heightPx() / 2 * die.widthPx() + die.widthPx() / 2) * 3;
        int rgb = back.getRGB(die.widthPx() / 2, die.heightPx() / 2) & 0xFFFFFF;
        int expected =
            (die.rgb()[i] & 255) << 16 | (die.rgb()[i + 1] & 255) << 8 | (die.rgb()[i + 2] & 255);
        assertEquals(expected, rgb);
      }
    }
    BufferedImage labels = ImageIO.read(folder.resolve("die_labels.png").toFile());
    BufferedImage surface = ImageIO.read(folder.resolve("die_surface.png").toFile());
    long[] counts = new long[256];
    for (int y = 0; y < die.heightPx(); y++) {
      for (int x = 0; x < die.widthPx(); x++) {
        int fine = surface.getRaster().getSample(x, y, 0);
        int coarse = labels.getRaster().getSample(x, y, 0);
        assertEquals(die.surface()[y * die.widthPx() + x], fine);
        assertEquals(SurfaceLabel.scoring((byte) fine), coarse);
        counts[coarse]++;
      }
    }
    JsonNode json = new ObjectMapper().readTree(folder.resolve("die.json").toFile());
    double pxMm2 = 1.6 * 1.6 / 1e6;
    JsonNode areas = json.get("class_area_mm2");
    assertEquals(counts[1] * pxMm2, areas.get("memory").asDouble(), 1e-9);
    assertEquals(counts[3] * pxMm2, areas.get("logic").asDouble(), 1e-9);
    assertEquals(counts[255] * pxMm2, areas.get("unscored").asDouble(), 1e-9);
    assertEquals(die.truth().bits(), json.get("bits_total").asLong());
    assertEquals(die.truth().blocks().size(), json.get("inventory").size());
    assertTrue(json.get("um_to_px").get(1).size() == 3);
  }

  @Test
  void umToPx_andBack_isTheSamePoint() {
    UmToPx map = UmToPx.turned(0.5, 3, new PointUm(100, 50), 640, 480);
    PointUm p = new PointUm(12.5, 321);
    PointUm back = map.pointUm(map.columnPx(p), map.rowPx(p));
    assertEquals(p.xUm(), back.xUm(), 1e-9);
    assertEquals(p.yUm(), back.yUm(), 1e-9);
    // The turning point stays, and 1 um is 2 px long.
    assertEquals(640, map.columnPx(new PointUm(100, 50)), 1e-9);
    assertEquals(2, Math.hypot(map.xx(), map.yx()), 1e-12);
  }
}
