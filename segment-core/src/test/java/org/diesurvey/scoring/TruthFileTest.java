package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.SharedData;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TruthFileTest {
  @TempDir Path folder;

  /** Areas stated in the truth files of the dies rendered from open layouts, by class. */
  @Test
  void openDies_haveTheAreasThatTheirFilesState() throws IOException {
    Map<String, Integer> codes =
        Map.of("off", 0, "memory", 1, "macro", 2, "logic", 3, "pad", 4, "unscored", 255);
    for (Path json : SharedData.openDies()) {
      Truth truth = TruthFile.read(json);
      JsonNode root = new ObjectMapper().readTree(json.toFile());
      double pixelMm2 = Math.pow(truth.umPerPx().orElseThrow(), 2) / 1e6;
      long[] counts = counts(truth.labels());
      for (Map.Entry<String, Integer> e : codes.entrySet()) {
        double stated = root.path("class_area_mm2").path(e.getKey()).asDouble(0);
        assertEquals(stated, counts[e.getValue()] * pixelMm2, 1e-4, json + " " + e.getKey());
      }
      assertEquals(root.get("bond_pads").asInt(), truth.bondPads().orElseThrow());
      assertEquals(root.get("bits_total").asLong(), truth.bits().orElseThrow());
      assertTrue(truth.nand2Equivalents().isPresent());
      assertTrue(truth.outlines().stream().anyMatch(o -> o.dieClass() == DieClass.PAD_RING));
      // The logic's holes are described in words only, so its outline is not drawn.
      assertTrue(truth.outlines().stream().noneMatch(o -> o.dieClass() == DieClass.LOGIC));
      assertEquals(
          root.get("memory_arrays_inside_macros_um").size(), truth.bitCellArraysUm().size());
    }
  }

  @Test
  void realPhotos_haveOutlinesAndNoScale() {
    for (Path json : SharedData.realPhotos()) {
      Truth truth = TruthFile.read(json);
      assertTrue(truth.umPerPx().isEmpty());
      assertTrue(truth.bondPads().isEmpty());
      assertTrue(truth.outlines().size() > 0, json.toString());
    }
  }

  @Test
  void missingMembers_areUnknown() throws IOException {
    writeGrey("x_labels.png", 0, 1, 2, 3, 4, 255);
    Truth truth = TruthFile.read(write("x.json", "{}"));
    assertEquals("x", truth.name());
    assertTrue(truth.umPerPx().isEmpty());
    assertTrue(truth.outlines().isEmpty());
    assertEquals(255, truth.labels().get(5, 0));
  }

  @Test
  void blocksWithHolesNotInPixels_giveNoOutline() throws IOException {
    writeGrey("y_labels.png", 1, 3, 4);
    String ring = "\"polygon_px\":[[0,0],[9,0],[9,9],[0,9]]";
    Truth truth =
        TruthFile.read(
            write(
                "y.json",
                "{\"inventory\":["
                    + ("{\"kind\":\"logic\",\"holes_um\":[[1,1,2,2]]," + ring + "},")
                    + ("{\"kind\":\"pad\",\"hole_px\":[[2,2],[7,2],[7,7]]," + ring + "},")
                    + ("{\"kind\":\"seal\"," + ring + "},")
                    + ("{\"kind\":\"memory\"," + ring + "}]}")));
    assertEquals(
        List.of(DieClass.PAD_RING, DieClass.MEMORY_ARRAY),
        truth.outlines().stream().map(TruthOutline::dieClass).toList());
    assertEquals(1, truth.outlines().get(0).outlinePx().holes().size());
  }

  /** A palette's colours do not matter; the stored index is the code. */
  @Test
  void paletteLabelMap_isReadByIndex() throws IOException {
    byte[] ramp = new byte[256];
    for (int i = 0; i < 256; i++) {
      ramp[i] = (byte) (255 - i);
    }
    BufferedImage image =
        new BufferedImage(
            3, 1, BufferedImage.TYPE_BYTE_INDEXED, new IndexColorModel(8, 256, ramp, ramp, ramp));
    image.getRaster().setPixels(0, 0, 3, 1, new int[] {0, 3, 255});
    ImageIO.write(image, "png", folder.resolve("p_labels.png").toFile());
    LabelRaster labels = LabelFile.read(folder.resolve("p_labels.png"));
    assertEquals(0, labels.get(0, 0));
    assertEquals(3, labels.get(1, 0));
    assertEquals(255, labels.get(2, 0));
  }

  @Test
  void badFiles_areRefusedWithTheirReason() throws IOException {
    assertEquals(Reason.FILE_MISSING, reason(folder.resolve("none.json")));
    assertEquals(Reason.DOCUMENT_INVALID, reason(write("a.json", "not json")));
    assertEquals(Reason.DOCUMENT_INVALID, reason(write("b.json", "[1]")));
    assertEquals(Reason.FILE_MISSING, reason(write("c.json", "{}")));
    writeGrey("d_labels.png", 0, 9);
    assertEquals(Reason.DOCUMENT_INVALID, reason(write("d.json", "{}")));
    write("e_labels.png", "text");
    assertEquals(Reason.FORMAT_UNKNOWN, reason(write("e.json", "{}")));
    ImageIO.write(
        new BufferedImage(2, 2, BufferedImage.TYPE_INT_RGB),
        "png",
        folder.resolve("f_labels.png").toFile());
    assertEquals(Reason.FORMAT_UNSUPPORTED, reason(write("f.json", "{}")));
    writeGrey("g_labels.png", 0, 1);
    assertEquals(
        Reason.DOCUMENT_INVALID, reason(write("g.json", "{\"label_values\":{\"memory\":2}}")));
  }

  private static Reason reason(Path json) {
    return assertThrows(DieInputException.class, () -> TruthFile.read(json)).reason();
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private void writeGrey(String name, int... codes) throws IOException {
    BufferedImage image = new BufferedImage(codes.length, 1, BufferedImage.TYPE_BYTE_GRAY);
    image.getRaster().setPixels(0, 0, codes.length, 1, codes);
    ImageIO.write(image, "png", folder.resolve(name).toFile());
  }

  private static long[] counts(LabelRaster labels) {
    long[] counts = new long[256];
    for (byte b : labels.array()) {
      counts[b & 0xff]++;
    }
    return counts;
  }
}
