package org.diesurvey.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.diesurvey.Cancellation;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs what the guide of the library quotes. */
class ExamplesTest {
  private static final Path SOURCES = Path.of("src/test/java/org/diesurvey/examples");
  private static final Path GUIDE = Path.of("docs/library.md");
  private static final ScaleInput SCALE =
      new ScaleInput.Known(Calibration.ofPixelPitch(0.8, 0.002));

  @TempDir private static Path folder;

  private static Path file;
  private static DiePhoto photo;
  private static Survey survey;

  @BeforeAll
  static void drawAndSurvey() throws IOException {
    DrawOptions options =
        DrawOptions.defaults()
            .withUmPerPx(0.8)
            .withMaxMegapixels(0.7)
            .withFraming(DrawOptions.Framing.WHOLE_DIE);
    file = DieFiles.write(DieDrawing.draw(11, options), folder, "die", DieFiles.Format.PNG);
    photo = DiePhoto.open(file);
    survey = OneDieOfATray.run(photo, SCALE, 1);
  }

  @Test
  void pixels_becomeAreas() throws IOException {
    BufferedImage pixels = ImageIO.read(file.toFile());
    assertEquals(survey.totals(), PixelsToAreas.run(pixels), "as from the file");
  }

  @Test
  void samplesOfACamera_areRead() {
    short[] samples = new short[100 * 100];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (i % 4096);
    }
    assertEquals(12, SamplesOfACamera.run(samples, 100, 100));
  }

  @Test
  void fileWithoutAScale_hasNone() {
    assertInstanceOf(ScaleInput.None.class, FileAndItsScale.run(file));
  }

  @Test
  void regions_areToldWithTheirDoubt() {
    assertTrue(RegionsAndDoubt.run(survey).stream().allMatch(r -> r.confidence() < 0.5));
  }

  @Test
  void estimates_areMadeForTheNode() {
    assertTrue(BitsAndGates.run(survey) >= 2);
  }

  @Test
  void files_areWrittenAndReadBack() {
    Survey back = FilesOfASurvey.run(survey, photo, folder.resolve("files"));
    assertEquals(survey.totals().size(), back.totals().size());
  }

  @Test
  void outlines_areGeoJson() {
    assertTrue(OutlinesForOthers.run(survey).contains("FeatureCollection"));
  }

  @Test
  void cancelledSurvey_givesNothing() {
    Cancellation wish = new Cancellation();
    wish.cancel();
    assertNull(GivenUp.run(photo, SCALE, wish));
  }

  @Test
  void batch_goesOnAfterABadPhotograph() throws IOException {
    Path bad = Files.writeString(folder.resolve("bad.png"), "no picture");
    BatchProgress end = ManyPhotographs.run(List.of(bad, file), SCALE, folder.resolve("archive"));
    assertEquals(2, end.done());
  }

  static Stream<Path> examples() throws IOException {
    List<Path> all;
    try (Stream<Path> files = Files.list(SOURCES)) {
      all = files.filter(f -> !f.endsWith("ExamplesTest.java")).sorted().toList();
    }
    assertFalse(all.isEmpty());
    return all.stream();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void guide_quotesTheSameText(Path source) throws IOException {
    String text = Files.readString(source);
    int from = text.indexOf("// begin\n") + "// begin\n".length();
    String body = text.substring(from, text.indexOf("    // end")).replaceAll("(?m)^    ", "");
    assertTrue(Files.readString(GUIDE).contains("```java\n" + body + "```"), body);
  }
}
