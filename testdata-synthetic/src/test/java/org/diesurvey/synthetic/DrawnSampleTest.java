package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/**
 * Guards the committed sample. After a wanted change of the drawing, rewrite it with {@code mvn
 * test -pl testdata-synthetic -Dtest=DrawnSampleTest -Ddiesurvey.rewriteSample=true} and look at
 * the picture before committing it.
 */
class DrawnSampleTest {
  private static final Path FOLDER = Path.of("src", "test", "resources", "sample");
  private static final long SEED = 30;
  private static final DrawOptions OPTIONS =
      DrawOptions.defaults()
          .withUmPerPx(2)
          .withMaxMegapixels(0.3)
          .withNodes(350, 250)
          .withFraming(DrawOptions.Framing.WHOLE_DIE)
          .withSeverity(0.5);

  @Test
  void redrawnSample_isTheCommittedOne() throws Exception {
    DrawnDie die = DieDrawing.draw(SEED, OPTIONS);
    List<String> drawn =
        List.of(
            sha256(die.rgb()) + "  drawn picture, red green blue per pixel",
            sha256(die.surface()) + "  drawn surface labels",
            sha256(die.damage()) + "  drawn damage mask");
    if (Boolean.getBoolean("diesurvey.rewriteSample")) {
      rewrite(die, drawn);
    }
    List<String> listed = Files.readAllLines(FOLDER.resolve("SHA256SUMS"));
    assertEquals(drawn, listed.subList(0, 3));
    BufferedImage surface = ImageIO.read(FOLDER.resolve("drawn_surface.png").toFile());
    byte[] codes = new byte[die.widthPx() * die.heightPx()];
    for (int i = 0; i < codes.length; i++) {
      codes[i] = (byte) surface.getRaster().getSample(i % die.widthPx(), i / die.widthPx(), 0);
    }
    assertArrayEquals(die.surface(), codes);
  }

  @Test
  void committedFiles_matchTheirChecksums() throws Exception {
    List<String> listed = Files.readAllLines(FOLDER.resolve("SHA256SUMS"));
    long size = 0;
    for (String line : listed.subList(3, listed.size())) {
      Path file = FOLDER.resolve(line.substring(66));
      assertEquals(line.substring(0, 64), sha256(Files.readAllBytes(file)), file.toString());
      size += Files.size(file);
    }
    assertEquals(7, listed.size());
    assertTrue(size <= 300_000, "sample has grown to " + size + " bytes");
  }

  private static void rewrite(DrawnDie die, List<String> drawn) throws Exception {
    DieFiles.write(die, FOLDER, "drawn", DieFiles.Format.JPG);
    List<String> lines = new ArrayList<>(drawn);
    for (String name :
        List.of("drawn.jpg", "drawn.json", "drawn_labels.png", "drawn_surface.png")) {
      lines.add(sha256(Files.readAllBytes(FOLDER.resolve(name))) + "  " + name);
    }
    Files.writeString(FOLDER.resolve("SHA256SUMS"), String.join("\n", lines) + "\n");
  }

  private static String sha256(byte[] bytes) throws IOException {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (java.security.NoSuchAlgorithmException e) {
      throw new IOException(e);
    }
  }
}
