package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class InspectCommandTest {
  @TempDir Path temp;

  private Path photo() throws IOException {
    BufferedImage image = new BufferedImage(600, 400, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < 400; y++) {
      for (int x = 0; x < 600; x++) {
        int block = ((x + y / 40) / 23 + (y + x / 40) / 17) % 2;
        image.getRaster().setSample(x, y, 0, 90 + 60 * block + (x * 7919 ^ y * 104729) % 5);
      }
    }
    Path file = temp.resolve("field.png");
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  @Test
  void table_saysWhatThePhotographCanCarry() throws IOException {
    Call call = Call.of("inspect", photo(), "--um-per-px", "0.5", "--na", "0.9", "--node", "90");
    assertEquals(0, call.code(), call.err());
    assertEquals("", call.err());
    for (String word :
        List.of(
            "600 \u00d7 400 px",
            "Rayleigh 0.37",
            "Nyquist",
            "single gates",
            "not resolvable",
            "counts will be estimated from area",
            "no die edge found")) {
      assertTrue(
          call.out().contains(word) || call.out().replaceAll("\\s+", " ").contains(word),
          word + " in " + call.out());
    }
    assertTrue(call.out().lines().allMatch(l -> l.length() <= 104), call.out());
  }

  @Test
  void json_isTheWrittenDocument() throws IOException {
    Path out = temp.resolve("inspected");
    Call call = Call.of("inspect", photo(), "--json", "--out", out);
    assertEquals(0, call.code(), call.err());
    JsonNode said = new ObjectMapper().readTree(call.out());
    JsonNode written = new ObjectMapper().readTree(out.resolve("inspection.json").toFile());
    assertEquals("diesurvey-inspection", written.get("format").asText());
    assertEquals(written, said);
    assertTrue(ImageIO.read(out.resolve("inspection.png").toFile()).getWidth() >= 600);
    try (var files = Files.list(out)) {
      assertEquals(3, files.count(), "document, picture and their list of checksums");
    }
    assertEquals(0, Call.of("inspect", photo(), "--out", out).code(), "a second time");
  }

  @Test
  void foreignFile_isLeftAlone() throws IOException {
    Path out = Files.createDirectory(temp.resolve("notes"));
    Path foreign = Files.writeString(out.resolve("inspection.json"), "{}");
    Call call = Call.of("inspect", photo(), "--out", out);
    assertEquals(2, call.code());
    assertEquals("{}", Files.readString(foreign));
    assertFalse(Files.exists(out.resolve("inspection.png")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"missing", "directory", "empty", "text", "cut-jpeg", "black", "cmyk"})
  void badPhotograph_isOneSentence_andWritesNothing(String kind) throws IOException {
    Path photo = BadPhotos.make(kind, temp);
    Path out = temp.resolve("inspected");
    Call call = Call.of("inspect", photo, "--out", out);
    assertEquals(1, call.code(), call.err());
    assertEquals("", call.out());
    assertEquals(1, call.errLines().length, call.err());
    assertTrue(call.err().contains(photo.getFileName().toString()), call.err());
    assertFalse(Files.exists(out));
  }

  @ParameterizedTest
  @ValueSource(strings = {"--na=2", "--wavelength=5", "--node=1", "--na=strong", "--na=NaN"})
  void impossibleOption_isAWrongCall(String option) throws IOException {
    Call call = Call.of("inspect", photo(), option);
    assertEquals(2, call.code());
    assertTrue(call.err().contains(option.substring(0, option.indexOf('='))), call.err());
  }
}
