package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.MicrometerDrawing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CalibrateCommandTest {
  @TempDir Path temp;

  @Test
  void micrometer_becomesAFileWithPicturesBesideIt() throws IOException {
    Path photo = MicrometerDrawing.draw(700001).write(temp.resolve("in"), "m");
    Path out = temp.resolve("out").resolve("20x.json");
    double division = MicrometerDrawing.draw(700001).truth().divisionUm();
    Call call =
        Call.of(
            "calibrate",
            photo,
            "--division",
            division + "um",
            "--division-tolerance",
            "0.1%",
            "--objective",
            "20x",
            "--out",
            out);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.out().contains("95 % interval"), call.out());
    CalibrationFile file = CalibrationFile.read(out);
    assertEquals(64, file.evidence().orElseThrow().photos().get(0).sha256().length());
    assertTrue(Files.size(out.resolveSibling("20x-lines.png")) > 1000);
    assertTrue(Files.size(out.resolveSibling("20x-residuals.png")) > 1000);
  }

  @Test
  void photographWithoutMicrometer_writesNothing() throws IOException {
    Path out = temp.resolve("x.json");
    Call call = Call.of("calibrate", SmallModel.photo(), "--division", "10um", "--out", out);
    assertEquals(2, call.code(), call.err());
    assertEquals(1, call.errLines().length, call.err());
    try (Stream<Path> files = Files.list(temp)) {
      assertEquals(0, files.count());
    }
  }

  /** The pitch's relative uncertainty counts twice in the die's area; the outline adds to it. */
  @Test
  void calibrationFile_carriesItsUncertaintyToTheAreas() {
    Path scale = temp.resolve("nominal.json");
    Call made =
        Call.of("calibrate", "--camera-pixel", "10um", "--magnification", "10", "--out", scale);
    assertEquals(0, made.code(), made.err());
    assertTrue(made.out().contains("NOMINAL"), made.out());
    Call call =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--scale",
            scale,
            "--out",
            temp.resolve("s"),
            "--model",
            SmallModel.model(),
            "--quiet");
    assertEquals(0, call.code(), call.err());
    Survey survey = SurveyJson.read(temp.resolve("s").resolve("die-3").resolve("survey.json"));
    String note = survey.scale().calibration().orElseThrow().note();
    assertTrue(note.contains("nominal.json") && note.contains("magnification"), note);
    Measured area = survey.die().areaMm2().orElseThrow();
    assertTrue(area.relativeUncertainty() >= 2 * 0.05 / Math.sqrt(3), area.toString());
    assertTrue(area.relativeUncertainty() < 3 * 0.05 / Math.sqrt(3), area.toString());
  }

  @Test
  void incompleteCalls_areWrongCalls() {
    Path out = temp.resolve("x.json");
    for (Object[] args :
        new Object[][] {
          {"calibrate", "--out", out},
          {"calibrate", SmallModel.photo(), "--out", out},
          {"calibrate", SmallModel.photo(), "--division", "10", "--out", out},
          {"calibrate", "--points", "1,2,3", "--distance", "10um", "--out", out},
          {"calibrate", "--points", "1,2,300,4", "--out", out},
          {"calibrate", "--camera-pixel", "3um", "--out", out}
        }) {
      Call call = Call.of(args);
      assertEquals(2, call.code(), call.err());
      assertEquals(1, call.errLines().length, call.err());
      assertFalse(Files.exists(out));
    }
  }
}
