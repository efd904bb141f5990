package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Invented masks of a few hundred pixels, written as a library on disk is. */
class LayoutLibraryTest {
  @TempDir Path folder;

  @BeforeEach
  void writeBlocks() throws IOException {
    write("cells", "memory", "", 400, 300, "\"inner_arrays_um\": [[5, 5, 30, 20]],", 7, 5);
    write("amplifier", "macro", "", 300, 200, "", 60, 23);
    write("gates", "logic", "", 500, 400, "", 30, 11);
    write("driver", "io", "I/O cell", 200, 400, "", 90, 31);
    write("empty", "macro", "", 100, 100, "\"coverage\": {\"diff\": 0.01, \"poly\": 0.01},", 9, 9);
  }

  /** A lattice of diffusion of one period, crossed by polysilicon of another. */
  private void write(
      String name, String kind, String words, int w, int h, String more, int period, int other)
      throws IOException {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_BYTE_GRAY);
    byte[] bits = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    for (int i = 0; i < bits.length; i++) {
      int x = i % w;
      int y = i / w;
      bits[i] =
          (byte)
              ((x % period < period / 2 + 1 && y % other < other / 2 + 1 ? LayoutMask.DIFFUSION : 0)
                  | (x % other == 0 ? LayoutMask.POLY : 0));
    }
    ImageIO.write(image, "png", folder.resolve(name + ".png").toFile());
    Files.writeString(
        folder.resolve(name + ".json"),
        String.format(
            java.util.Locale.ROOT,
            "{\"class\": \"%s\", \"kind\": \"%s\", \"technology\": \"invented\", %s"
                + " \"um_per_px\": 0.1, \"width_um\": %s, \"height_um\": %s}",
            kind,
            words,
            more,
            w / 10.0,
            h / 10.0));
  }

  @Test
  void blocks_areReadButForThoseThatShowNothing() throws IOException {
    LayoutLibrary library = LayoutLibrary.open(folder);
    assertEquals(4, library.blocks().size());
    LayoutBlock memory = library.of(LayoutBlock.Kind.MEMORY, "invented").get(0);
    assertEquals(40, memory.widthUm());
    assertEquals(new RectUm(5, 5, 30, 20), memory.arrays().get(0));
  }

  @Test
  void aRecordWithoutItsSize_isRefused() throws IOException {
    Files.writeString(folder.resolve("gates.json"), "{\"class\": \"logic\"}");
    IOException e = assertThrows(IOException.class, () -> LayoutLibrary.open(folder));
    assertTrue(e.getMessage().contains("technology"), e.getMessage());
  }

  /** Area is kept at any sampling: the coverage of a stamp sums to that of the mask. */
  @Test
  void stamp_keepsTheAreaOfALayer() throws IOException {
    LayoutLibrary library = LayoutLibrary.open(folder);
    LayoutBlock b = library.of(LayoutBlock.Kind.LOGIC, "invented").get(0);
    LayoutMask mask = library.mask(b);
    double expected = 0;
    for (byte v : mask.bits) {
      expected += (v & LayoutMask.DIFFUSION) != 0 ? 0.01 : 0;
    }
    for (double pxPerUm : new double[] {0.7, 3, 13}) {
      RectUm all = new RectUm(0, 0, 50, 40);
      Canvas canvas = new Canvas(all, pxPerUm);
      LayoutStamp.of(mask, 0.1, all, 0.1 * pxPerUm, new LayoutStamp.Tones(0, 0, 0))
          .setDown(canvas, new PointUm(0, 0), 0, all);
      double sum = 0;
      for (float v : canvas.plane(Layer.DIFFUSION)) {
        sum += v / (pxPerUm * pxPerUm);
      }
      assertEquals(expected, sum, 0.002 * expected, "at " + pxPerUm);
    }
  }

  /** A stamp set down in an orientation lies where a pen of that orientation draws. */
  @Test
  void orientations_areThoseOfThePen() throws IOException {
    LayoutLibrary library = LayoutLibrary.open(folder);
    LayoutBlock b = library.of(LayoutBlock.Kind.MACRO, "invented").get(0);
    LayoutMask mask = library.mask(b);
    // Only one corner of the block is looked at, so that each orientation differs.
    for (int i = 0; i < mask.bits.length; i++) {
      boolean corner = i % mask.width < 80 && i / mask.width < 40;
      mask.bits[i] = (byte) (corner ? LayoutMask.DIFFUSION : 0);
    }
    for (int orientation = 0; orientation < 8; orientation++) {
      boolean turned = (orientation & 4) != 0;
      RectUm window = new RectUm(0, 0, turned ? 20 : 30, turned ? 30 : 20);
      Canvas drawn = new Canvas(window, 2);
      Pen.on(drawn).block(0, 0, 30, 20, orientation).diffusion(0, 0, 8, 4);
      Canvas stamped = new Canvas(window, 2);
      LayoutStamp.of(mask, 0.1, new RectUm(0, 0, 30, 20), 0.2, new LayoutStamp.Tones(0, 0, 0))
          .setDown(stamped, new PointUm(0, 0), orientation, window);
      assertArrayEquals(
          drawn.plane(Layer.DIFFUSION),
          stamped.plane(Layer.DIFFUSION),
          1e-3f,
          "orientation " + orientation);
    }
  }

  /**
   * The driver of this library is 20 um by 40 um with gaps of 4.5 um; here it is drawn up to twice
   * as large.
   */
  @Test
  void realIoCells_abutOnMostRings() throws IOException {
    LayoutLibrary library = LayoutLibrary.open(folder);
    RectUm outer = new RectUm(0, 0, 900, 800);
    int rings = 0;
    int closed = 0;
    for (long seed = 0; seed < 60; seed++) {
      Dice dice = new Dice(seed);
      LayoutChoice choice = LayoutChoice.draw(dice.child("choice"), library, 1);
      if (!choice.takes(LayoutBlock.Kind.IO_CELL)) {
        continue;
      }
      Canvas canvas = new Canvas(outer, 1);
      Technology tech = Technology.draw(dice.child("technology"), 130, 130, false);
      new PadRing(tech, dice, outer, 80, false, 1, Optional.of(choice)).paint(canvas, false);
      rings++;
      closed += widestGapPx(canvas, 40, 75) <= 12 ? 1 : 0;
    }
    assertTrue(closed > 0.4 * rings && closed < rings, closed + " of " + rings + " rings");
  }

  /** Longest run of columns without diffusion between two rows, in the middle of the upper side. */
  private static int widestGapPx(Canvas canvas, int fromRow, int toRow) {
    int widest = 0;
    int run = 0;
    for (int x = canvas.widthPx / 4; x < 3 * canvas.widthPx / 4; x++) {
      boolean any = false;
      for (int y = fromRow; y < toRow; y++) {
        any |= canvas.plane(Layer.DIFFUSION)[y * canvas.widthPx + x] > 0.05;
      }
      run = any ? 0 : run + 1;
      widest = Math.max(widest, run);
    }
    return widest;
  }

  @Test
  void wideDies_takeBlocksOfTheLibraryAndLabelThem() throws IOException {
    LayoutLibrary library = LayoutLibrary.open(folder);
    DrawOptions options =
        DrawOptions.defaults()
            .withMaxMegapixels(0.5)
            .withUmPerPx(0.8)
            .withStyle(DrawOptions.Style.WIDE);
    int real = 0;
    for (long seed = 1; seed <= 6; seed++) {
      DrawnDie die = DieDrawing.drawReal(seed, options, library);
      assertEquals("invented", die.truth().technology());
      real +=
          (int)
              die.truth().blocks().stream()
                  .filter(b -> b.description().contains("real layout"))
                  .count();
      assertArrayEquals(die.rgb(), DieDrawing.drawReal(seed, options, library).rgb());
    }
    assertTrue(real > 6, real + " blocks");
    assertNotEquals(
        library.fingerprint(), library.only(t -> false).fingerprint(), "fingerprint of none");
    assertNotEquals(
        "invented",
        DieDrawing.draw(3, options, Optional.of(library.only(t -> false))).truth().technology(),
        "an empty library gives no blocks");
  }
}
