package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ExportCommandTest {
  @TempDir Path folder;

  private Path survey(boolean scaled, String photo) throws Exception {
    Outline px =
        new Outline(
            List.of(new Point(10, 10), new Point(30, 10), new Point(30, 30), new Point(10, 30)),
            List.of());
    Outline um =
        new Outline(
            List.of(new Point(20, 140), new Point(60, 140), new Point(60, 180), new Point(20, 180)),
            List.of());
    Survey s =
        new Survey(
            new PhotoInfo(photo, "ab".repeat(32), 9, "PNG", 100, 100, 8, 1, Optional.empty()),
            new SurveyMethod(
                new Software("diesurvey", "0", "test", "0".repeat(64)),
                1,
                OptionalDouble.empty(),
                8),
            new ScaleRecord(
                scaled ? Optional.of(Calibration.ofPixelPitch(2, 0.01)) : Optional.empty(),
                Optional.empty()),
            new DieFrame(
                true,
                List.of(new Point(0, 100), new Point(100, 100), new Point(100, 0), new Point(0, 0)),
                0,
                scaled ? Optional.of(new Measured(0.2, 0.001)) : Optional.empty(),
                scaled ? Optional.of(new Measured(0.2, 0.001)) : Optional.empty(),
                scaled ? Optional.of(new Measured(0.04, 0.001)) : Optional.empty(),
                10000),
            Preparation.NONE,
            List.of(
                new SurveyRegion(
                    "LOG1",
                    new ClassVerdict(
                        DieClass.LOGIC,
                        Optional.empty(),
                        0.9,
                        Map.of(
                            DieClass.MEMORY_ARRAY,
                            0.0,
                            DieClass.HARD_MACRO,
                            0.0,
                            DieClass.LOGIC,
                            1.0,
                            DieClass.PAD_RING,
                            0.0)),
                    RegionShape.of(px),
                    scaled ? Optional.of(RegionShape.of(um)) : Optional.empty(),
                    new RegionArea(
                        400,
                        scaled ? Optional.of(MeasuredArea.of(0.0016, 0.0001, 0)) : Optional.empty(),
                        0.04,
                        Optional.empty()),
                    List.of(),
                    Optional.empty(),
                    List.of(),
                    Optional.empty())),
            List.of(),
            List.of(),
            Optional.empty());
    Path file = folder.resolve("survey.json");
    Files.write(file, SurveyJson.write(s, Optional.empty()));
    return file;
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"geojson", "svg", "gdsii", "annotations"})
  void outlines_comeBackAsTheyWent(String kind) throws Exception {
    survey(true, "die.png");
    Path out = folder.resolve("made/o." + kind);
    Call call = Call.of("export", folder, "--as", kind, "--out", out);
    assertEquals(0, call.code(), call.err());
    assertTrue(call.err().startsWith("written: " + out), call.err());
    assertEquals(
        List.of("LOG1"), OutlineFiles.read(out).outlines().stream().map(o -> o.id()).toList());
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"csv", "tiff", "ome-tiff", "pdf"})
  void otherKinds_areWrittenAndSayWhatTheyAre(String kind) throws Exception {
    Path file = survey(true, "die.png");
    Path out = folder.resolve("o." + kind);
    Call call =
        Call.with(
            Map.of("SOURCE_DATE_EPOCH", "1767225600"),
            false,
            "export",
            file,
            "--as",
            kind,
            "--out",
            out);
    assertEquals(0, call.code(), call.err());
    String head = new String(Files.readAllBytes(out), StandardCharsets.ISO_8859_1).substring(0, 8);
    assertEquals(
        switch (kind) {
          case "csv" -> "photo,id";
          case "pdf" -> "%PDF-1.4";
          default -> "II*\0";
        },
        kind.contains("tiff") ? head.substring(0, 4) : head);
    assertTrue(OutlineFilesRefuse.says(out).contains("this is no file with outlines"), kind);
  }

  @Test
  void existingFiles_areKept_unlessToldOtherwise() throws Exception {
    Path file = survey(true, "die.png");
    Call call = Call.of("export", file, "--as", "csv", "--out", file);
    assertEquals(2, call.code());
    assertTrue(call.err().contains("names a file that exists"), call.err());
    assertTrue(Files.readString(file).startsWith("{"));
    Path out = folder.resolve("o.csv");
    assertEquals(0, Call.of("export", file, "--as", "geojson", "--out", out).code());
    assertEquals(0, Call.of("export", file, "--as", "csv", "--out", out, "--overwrite").code());
    assertFalse(Files.readString(out).startsWith("{"));
    Files.writeString(out, "old");
    assertEquals(2, Call.of("export", file, "--as", "csv", "--out", out, "--overwrite").code());
    assertEquals("old", Files.readString(out));
    assertEquals(2, Call.of("export", file, "--as", "csv", "--out", folder, "--overwrite").code());
  }

  @Test
  void umWithoutAScale_andUnknownKinds_areRefused() throws Exception {
    Path file = survey(false, "die.png");
    Call call = Call.of("export", file, "--as", "gdsii", "--out", folder.resolve("o.gds"));
    assertEquals(2, call.code());
    assertTrue(call.err().contains("the survey has no scale"), call.err());
    assertFalse(Files.exists(folder.resolve("o.gds")));
    assertEquals(
        0, Call.of("export", file, "--as", "geojson", "--out", folder.resolve("o")).code());
    Call odd = Call.of("export", file, "--as", "docx", "--out", folder.resolve("o.docx"));
    assertEquals(2, odd.code());
    assertTrue(odd.err().contains("ome-tiff"), odd.err());
  }

  @Test
  void photographsOfAnyName_areLinkedHarmlessly() throws Exception {
    Path file = survey(true, "../a b:\"><script>%41#.png");
    Path out = folder.resolve("o.svg");
    assertEquals(0, Call.of("export", file, "--as", "svg", "--out", out).code());
    String svg = Files.readString(out);
    assertTrue(svg.contains("href=\"./a%20b:%22%3E%3Cscript%3E%2541%23.png\""), svg);
    assertFalse(svg.contains("<script"));
    assertEquals(1, OutlineFiles.read(out).outlines().size());
    Path other = folder.resolve("other.png");
    Files.write(other, BadPhotos.class.getName().getBytes(StandardCharsets.UTF_8));
    Call call =
        Call.of("export", file, "--as", "svg", "--photo", other, "--out", out, "--overwrite");
    assertEquals(2, call.code(), call.err());
  }

  /** What the reader of outlines says of a file. */
  private static final class OutlineFilesRefuse {
    static String says(Path file) {
      try {
        OutlineFiles.read(file);
        return "nothing";
      } catch (org.diesurvey.DieInputException e) {
        return e.getMessage();
      }
    }
  }
}
