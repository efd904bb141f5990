package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.gds.GdsWriter;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The layout is one of our own exports: layer 0 is its outline, layer 2 a block. */
class MasksCommandTest {
  @TempDir Path folder;

  private Path gds;
  private Path layers;
  private Path out;

  @BeforeEach
  void write() throws Exception {
    Outline block =
        new Outline(
            List.of(new Point(10, 10), new Point(30, 10), new Point(30, 25), new Point(10, 25)),
            List.of());
    OutlineSet set =
        new OutlineSet(
            OutlineFrame.DIE_UM,
            Optional.of(new Extent(40, 30)),
            PhotoLink.UNKNOWN,
            List.of(ClassedOutline.region("MAC1", DieClass.HARD_MACRO, block)));
    gds =
        Files.write(
            folder.resolve("l.gds"), GdsWriter.bytes(set, Instant.parse("2026-01-31T12:00:00Z")));
    layers =
        Files.writeString(
            folder.resolve("layers.csv"),
            "layer,datatype,bit\n0,0,n-well\n2,0,diffusion\n2,0,polysilicon\n");
    out = folder.resolve("masks");
  }

  private Call masks(Object... more) {
    Object[] all = new Object[10 + more.length];
    Object[] usual = {
      "masks", gds, "--layers", layers, "--class", "macro", "--technology", "ours", "--out", out
    };
    System.arraycopy(usual, 0, all, 0, usual.length);
    System.arraycopy(more, 0, all, usual.length, more.length);
    return Call.of(all);
  }

  @Test
  void maskAndRecord_areWritten() throws Exception {
    Call c = masks("--um-per-px", "0.5", "--kind", "PLL", "--node", "130");
    assertEquals(0, c.code(), c.err());
    assertTrue(c.err().contains("DIE: 40.0 x 30.0 um, diffusion 25.0 %"), c.err());
    BufferedImage image = ImageIO.read(out.resolve("DIE.png").toFile());
    assertEquals(80, image.getWidth());
    assertEquals(60, image.getHeight());
    assertEquals(BufferedImage.TYPE_BYTE_GRAY, image.getType());
    assertEquals(4, image.getRaster().getSample(0, 0, 0));
    assertEquals(7, image.getRaster().getSample(21, 11, 0));
    JsonNode r = new ObjectMapper().readTree(out.resolve("DIE.json").toFile());
    assertEquals("macro", r.get("class").asText());
    assertEquals("PLL", r.get("kind").asText());
    assertEquals("ours", r.get("technology").asText());
    assertEquals(0.25, r.get("coverage").get("diff").asDouble(), 1e-9);
    assertEquals("l.gds", r.get("source").get("file_name").asText());
  }

  @Test
  void sameCall_givesTheSameBytes_andNothingIsReplacedUnasked() throws Exception {
    assertEquals(0, masks("--name", "a").code());
    byte[] first = Files.readAllBytes(out.resolve("a.png"));
    Call again = masks("--name", "a");
    assertEquals(2, again.code());
    assertTrue(again.err().contains("holds a mask a already; add --overwrite"), again.err());
    assertEquals(0, masks("--name", "a", "--overwrite").code());
    assertArrayEquals(first, Files.readAllBytes(out.resolve("a.png")));
    try (var files = Files.list(out)) {
      assertEquals(3, files.count(), "mask, record and their list of checksums");
    }
  }

  @Test
  void wrongCalls_areRefusedInASentence_andWriteNothing() {
    for (Object[] more :
        new Object[][] {
          {"--um-per-px", "0"},
          {"--window", "0,0,10"},
          {"--window", "10,0,0,10"},
          {"--name", "../a"},
          {"--cell", "NONE"},
          {"--bit-cell", "NONE"},
          {"--node", "-3"}
        }) {
      Call c = masks(more);
      assertEquals(2, c.code(), c.err());
      assertTrue(c.err().startsWith("diesurvey: "), c.err());
      assertFalse(c.err().contains("Exception"), c.err());
      assertFalse(Files.exists(out.resolve("DIE.png")));
    }
    Call c =
        Call.of(
            "masks", gds, "--layers", layers, "--class", "cpu", "--technology", "t", "--out", out);
    assertTrue(c.err().contains("fill, io, logic, macro, memory, rom, was cpu"), c.err());
  }
}
