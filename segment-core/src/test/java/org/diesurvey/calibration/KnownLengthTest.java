package org.diesurvey.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
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
import org.diesurvey.raster.PixelPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class KnownLengthTest {
  @TempDir Path folder;

  /** Camera-resolution tutorial of a camera maker: 6.5 um pixels at 10x, 40x and 60x. */
  @Test
  void cameraPixelAndMagnification_areNominal() {
    KnownLength k = KnownLength.nominal(6.5, 10, KnownLength.NOMINAL_LIMIT);
    assertEquals(0.65, k.umPerPx().value(), 1e-12);
    assertEquals(0.65 * 0.05 / Math.sqrt(3), k.umPerPx().standardUncertainty(), 1e-12);
    assertEquals(0.1625, KnownLength.nominal(6.5, 40, 0.05).umPerPx().value(), 1e-12);
    assertTrue(k.evidence().nominal());
    assertTrue(k.evidence().remarks().get(0).startsWith("NOMINAL"));
  }

  /** UK NEQAS Parasitology teaching page "Measurement": 50 units over 125 um are 2.5 um each. */
  @Test
  void twoPoints_giveTheirDistance() {
    KnownLength k =
        KnownLength.points(
            new PixelPoint(10, 10), new PixelPoint(40, 50), new Measured(125, 0.25), 0.1);
    assertEquals(2.5, k.umPerPx().value(), 1e-12);
    assertEquals(
        2.5 * Math.hypot(Math.sqrt(2) * 0.1 / 50, 0.002), k.umPerPx().standardUncertainty(), 1e-9);
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () ->
                KnownLength.points(
                    new PixelPoint(1, 1), new PixelPoint(1, 1), new Measured(125, 0), 1));
    assertEquals(Reason.SCALE_INVALID, e.reason());
  }

  private static String text() {
    KnownLength k =
        KnownLength.points(new PixelPoint(0, 0), new PixelPoint(300, 400), new Measured(250, 1), 1);
    return new CalibrationFile(
            k.umPerPx(),
            Optional.of("20x"),
            Optional.of("two points"),
            Optional.of("2026-01-31"),
            Optional.empty(),
            Optional.of(k.evidence()))
        .text();
  }

  @Test
  void evidence_isReadBack_andSatisfiesTheSchema() throws IOException {
    String text = text();
    Path file = Files.writeString(folder.resolve("c.json"), text);
    assertEquals(text, CalibrationFile.read(file).text());
    try (var in = CalibrationFile.class.getResourceAsStream("calibration.schema.json")) {
      var schema =
          SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
              .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
      assertEquals("[]", schema.validate(text, InputFormat.JSON).toString());
    }
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "\"nominal\" : false | \"nominel\" : false",
        "\"cause\" : \"length of the distance\" | \"cause\" : 3",
        "\"contribution_um_per_px\" : 0.002 | \"contribution_um_per_px\" : 0.02",
        "\"contribution_um_per_px\" : 0.002 | \"contribution_um_per_px\" : -0.002",
        "\"interval_95_um_per_px\" : [ | \"interval_95_um_per_px\" : [ 9,"
      })
  void impossibleEvidence_isRefused(String was, String is) throws IOException {
    String text = text();
    assertTrue(text.contains(was), text);
    Path file = Files.writeString(folder.resolve("c.json"), text.replace(was, is));
    DieInputException e = assertThrows(DieInputException.class, () -> CalibrationFile.read(file));
    assertEquals(Reason.DOCUMENT_INVALID, e.reason());
    assertTrue(e.getMessage().startsWith(file.toString()), e.getMessage());
  }
}
