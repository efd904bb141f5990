package org.diesurvey.report;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SurveyFolderTest {
  private static final Instant CREATED = Instant.parse("2026-01-31T12:00:00Z");

  @TempDir Path folder;

  private static PixelSource photo() {
    return new ImageSource(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB));
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.map(p -> p.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void folder_holdsEveryFile_andNothingElseIsLeft() throws IOException {
    Path out = folder.resolve("deep/small");
    SurveyFolder.write(SmallSurvey.of(true), photo(), out, CREATED);
    assertEquals(
        List.of(
            "checksums.sha256",
            "classes.png",
            "confidence-map.png",
            "label-map.png",
            "overlay.png",
            "regions.csv",
            "regions.geojson",
            "report.html",
            "survey.json"),
        names(out));
    assertEquals(List.of("small"), names(out.getParent()));
    BufferedImage labels = ImageIO.read(out.resolve(SurveyFolder.LABEL_MAP).toFile());
    assertEquals(40, labels.getWidth());
    assertEquals(30, labels.getHeight());
    assertEquals(1, labels.getRaster().getNumBands());
    assertEquals(255, labels.getRaster().getSample(20, 7, 0));
    BufferedImage classes = ImageIO.read(out.resolve(SurveyFolder.CLASSES).toFile());
    assertEquals(0xFF8A8A8A, classes.getRGB(20, 7), "unclear");
    assertEquals(0xFFFFFFFF, classes.getRGB(0, 0), "paper beside the die");
    assertEquals(0xFFE69F00, classes.getRGB(8, 7), "a memory array");
    BufferedImage confidences = ImageIO.read(out.resolve(SurveyFolder.CONFIDENCE_MAP).toFile());
    assertEquals(204, confidences.getRaster().getSample(8, 7, 0), "0.8 of 255");
    assertEquals(153, confidences.getRaster().getSample(4, 3, 0), "0.6 of 255");
    assertEquals(0, confidences.getRaster().getSample(0, 0, 0));
  }

  @Test
  void pdf_isWrittenWhereAskedFor_andGoesWithItsSurvey() throws IOException {
    Path out = folder.resolve("small");
    SurveyFolder.write(SmallSurvey.of(true), photo(), out, CREATED, true);
    assertTrue(Files.readString(out.resolve("report.pdf"), ISO_8859_1).startsWith("%PDF-1.4"));
    SurveyFolder.write(SmallSurvey.of(true), photo(), out, CREATED);
    assertFalse(names(out).contains("report.pdf"), "a page of an earlier survey was kept");
  }

  @Test
  void sameSurvey_givesTheSameBytes() throws IOException {
    SurveyFolder.write(SmallSurvey.of(true), photo(), folder.resolve("a"), CREATED);
    SurveyFolder.write(SmallSurvey.of(true), photo(), folder.resolve("b"), CREATED);
    for (String name : names(folder.resolve("a"))) {
      assertArrayEquals(
          Files.readAllBytes(folder.resolve("a").resolve(name)),
          Files.readAllBytes(folder.resolve("b").resolve(name)),
          name);
    }
  }

  @Test
  void earlierSurvey_isReplaced_andNotesBesideItAreKept() throws IOException {
    Path out = folder.resolve("small");
    SurveyFolder.write(SmallSurvey.of(true), photo(), out, CREATED);
    Files.writeString(out.resolve("notes.txt"), "mine");
    SurveyFolder.write(SmallSurvey.of(false), photo(), out, CREATED);
    assertTrue(SurveyJson.read(out.resolve("survey.json")).scale().calibration().isEmpty());
    assertEquals("mine", Files.readString(out.resolve("notes.txt")));
    assertEquals(10, names(out).size());
    assertEquals(List.of("small"), names(folder));
  }

  @Test
  void foreignFolderOrFile_isRefusedAndUntouched() throws IOException {
    Path foreign = Files.createDirectory(folder.resolve("foreign"));
    Files.writeString(foreign.resolve("survey.json"), "{\"format\": \"another\"}");
    refuse(foreign, photo());
    assertEquals(List.of("survey.json"), names(foreign));
    Path file = Files.writeString(folder.resolve("file"), "mine");
    refuse(file, photo());
    assertEquals("mine", Files.readString(file));
    refuse(file.resolve("below"), photo());
    assertEquals(List.of("file", "foreign"), names(folder));
  }

  @Test
  void failureInTheMiddle_leavesNothing_andKeepsTheEarlierSurvey() throws IOException {
    PixelSource broken =
        new PixelSource() {
          @Override
          public int width() {
            return 40;
          }

          @Override
          public int height() {
            return 30;
          }

          @Override
          public void readGray(PixelRect window, float[] target) {}

          @Override
          public void readRgb(PixelRect window, int[] target) {
            throw new UncheckedIOException(new IOException("the disk is gone"));
          }

          @Override
          public void close() {}
        };
    Path out = folder.resolve("small");
    refuse(out, broken);
    assertFalse(Files.exists(out));
    assertEquals(List.of(), names(folder));
    SurveyFolder.write(SmallSurvey.of(true), photo(), out, CREATED);
    refuse(out, broken);
    assertEquals(9, names(out).size());
    assertEquals(List.of("small"), names(folder));
  }

  private static void refuse(Path out, PixelSource photo) {
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () -> SurveyFolder.write(SmallSurvey.of(true), photo, out, CREATED));
    assertEquals(Reason.OUTPUT_NOT_WRITABLE, e.reason());
    assertTrue(e.getMessage().contains(out.getFileName().toString()), e.getMessage());
  }

  /** The maps of a real layout's photograph against the truth map that came with it. */
  @Test
  void openDie_labelMapAgreesWithItsTruthMap() throws IOException {
    OpenDie die = OpenDie.named("o1_sky");
    Survey survey = die.survey(true);
    Path out = folder.resolve("o1_sky");
    SurveyFolder.write(survey, die.photo(), out, CREATED);
    var labels = ImageIO.read(out.resolve(SurveyFolder.LABEL_MAP).toFile()).getRaster();
    var truth = ImageIO.read(die.truth().toFile()).getRaster();
    int scored = 0;
    int same = 0;
    for (int y = 0; y < truth.getHeight(); y += 3) {
      for (int x = 0; x < truth.getWidth(); x += 3) {
        int t = truth.getSample(x, y, 0);
        if (t >= 1 && t <= 4) {
          scored++;
          same += labels.getSample(x, y, 0) == t ? 1 : 0;
        }
      }
    }
    assertTrue(scored > 100_000);
    assertTrue(same > 0.995 * scored, same + " of " + scored);
    BufferedImage overlay = ImageIO.read(out.resolve(SurveyFolder.OVERLAY).toFile());
    assertTrue(overlay.getWidth() > 1200 && overlay.getWidth() < 2700, "" + overlay.getWidth());
  }
}
