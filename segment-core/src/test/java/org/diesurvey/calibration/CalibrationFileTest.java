package org.diesurvey.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibrationFileTest {
  @TempDir Path folder;

  private static Schema schema() throws IOException {
    try (var in = CalibrationFile.class.getResourceAsStream("calibration.schema.json")) {
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  @Test
  void writtenFile_satisfiesTheSchema_andIsReadBack() throws IOException {
    CalibrationFile file =
        new CalibrationFile(
            new Measured(0.512, 0.0021),
            Optional.of("20x, NA 0.45"),
            Optional.of("stage micrometer, 10 um divisions"),
            Optional.of("2026-01-31"),
            Optional.empty(),
            Optional.empty());
    Path path = folder.resolve("20x.json");
    file.write(path);
    assertEquals("[]", schema().validate(Files.readString(path), InputFormat.JSON).toString());
    assertEquals(file, CalibrationFile.read(path));
    Calibration scale = file.calibration("20x.json");
    assertEquals(ScaleOrigin.CALIBRATION_FILE, scale.origin());
    assertTrue(scale.note().contains("20x, NA 0.45"), scale.note());
  }

  @ParameterizedTest
  @CsvSource({
    "um_per_px, -0.5, SCALE_INVALID",
    "um_per_px, 0, SCALE_INVALID",
    "um_per_px, 5000, SCALE_INVALID",
    "um_per_px, '\"0.5\"', DOCUMENT_INVALID",
    "um_per_px, 1e999, DOCUMENT_INVALID",
    "um_per_px, NaN, DOCUMENT_INVALID",
    "standard_uncertainty_um_per_px, -0.1, DOCUMENT_INVALID",
    "standard_uncertainty_um_per_px, 0.5, SCALE_INVALID",
    "format_version, 2, DOCUMENT_INVALID",
    "format_version, 1.5, DOCUMENT_INVALID",
    "format, '\"other\"', DOCUMENT_INVALID",
    "measured_on, '\"last week\"', DOCUMENT_INVALID",
    "objective, 20, DOCUMENT_INVALID",
    "colour, 1, DOCUMENT_INVALID"
  })
  void impossibleMember_isRefusedInOneSentence(String member, String value, Reason reason)
      throws IOException {
    java.util.Map<String, String> members =
        new java.util.LinkedHashMap<>(
            java.util.Map.of(
                "format", "\"diesurvey-calibration\"",
                "format_version", "1",
                "um_per_px", "0.5",
                "standard_uncertainty_um_per_px", "0.002"));
    members.put(member, value);
    StringBuilder json = new StringBuilder("{");
    members.forEach(
        (k, v) -> json.append(json.length() > 1 ? "," : "").append('"' + k + "\":" + v));
    Path path = Files.writeString(folder.resolve("c.json"), json + "}");
    DieInputException e = assertThrows(DieInputException.class, () -> CalibrationFile.read(path));
    assertEquals(reason, e.reason(), e.getMessage());
    assertTrue(e.getMessage().startsWith(path.toString()), e.getMessage());
    assertFalse(e.getMessage().contains("\n"), e.getMessage());
  }

  @Test
  void missingFileAndOtherText_areRefused() throws IOException {
    DieInputException missing =
        assertThrows(
            DieInputException.class, () -> CalibrationFile.read(folder.resolve("absent.json")));
    assertEquals(Reason.FILE_MISSING, missing.reason());
    Path text = Files.writeString(folder.resolve("t.json"), "0.5 um per px");
    DieInputException other =
        assertThrows(DieInputException.class, () -> CalibrationFile.read(text));
    assertEquals(Reason.DOCUMENT_INVALID, other.reason());
  }
}
