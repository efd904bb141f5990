package org.diesurvey.report.pdf;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.preflight.ValidationResult.ValidationError;
import org.apache.pdfbox.preflight.parser.PreflightParser;
import org.apache.pdfbox.text.PDFTextStripper;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PdfReportTest {
  private static final Instant MOMENT = Instant.parse("2026-01-31T12:34:56Z");

  @TempDir Path folder;

  private static byte[] pdf(Survey survey, boolean picture) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    BufferedImage image = new BufferedImage(60, 40, BufferedImage.TYPE_INT_ARGB);
    PdfReport.write(survey, picture ? Optional.of(image) : Optional.empty(), MOMENT, out);
    return out.toByteArray();
  }

  private static String text(byte[] pdf) throws IOException {
    try (PDDocument d = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(d);
    }
  }

  /** ISO 19005-1 level B, as Apache PDFBox Preflight checks it. */
  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void document_isOneForArchives(boolean scaled) throws IOException {
    Path file = folder.resolve("r.pdf");
    Files.write(file, pdf(SmallSurvey.of(scaled), scaled));
    assertEquals(
        List.of(),
        PreflightParser.validate(file.toFile()).getErrorsList().stream()
            .map(ValidationError::toString)
            .toList());
  }

  @Test
  void words_areThoseOfThePage() throws IOException {
    String text = text(pdf(SmallSurvey.of(true), true)).replaceAll("\\s+", " ");
    for (String part :
        List.of(
            "Die survey small.png",
            "Page 1 of 3",
            "Die width 0.06400 \u00b1 0.00032 mm",
            "MEM1 memory array 0.0003200 \u00b1 0.0000032 mm\u00b2",
            "about 12 bond pads \u00b1 2, counted as I/O cells",
            "A <b>bold</b> claim. Read \"it\" & think. odd-notice",
            "SHA-256 of the file 0123456789abcdef",
            "2026-01-31T12:34:56Z",
            "hydrofluoric acid",
            "Local codes, safety data sheets and licensed practice")) {
      assertTrue(text.contains(part.replaceAll("\\s+", " ")), part + " in: " + text);
    }
    assertTrue(
        text(pdf(SmallSurvey.of(false), false)).contains("was not at hand"), "missing picture");
  }

  @Test
  void sameSurvey_givesTheSameBytes() throws IOException {
    assertArrayEquals(pdf(SmallSurvey.of(true), true), pdf(SmallSurvey.of(true), true));
  }

  /** 9,000 letters without a space took 168 s, and their row ran off its page. */
  @Test
  void veryLongNames_costLittle_andAreCut() {
    String name = "y".repeat(30_000) + ".png";
    assertTimeoutPreemptively(Duration.ofSeconds(20), () -> pdf(SmallSurvey.of(true, name), false));
  }

  @Test
  void namesThatNoFontHas_andLongOnes_doNoHarm() throws IOException {
    String name = "\u202Egnp.\u82af\u7247 \ud83d\ude00<script>(x)" + "y".repeat(300) + ".png";
    String text = text(pdf(SmallSurvey.of(true, name), false)).replaceAll("\\s+", "");
    assertTrue(text.contains("?gnp.???<script>(x)yyy"), text.substring(0, 200));
  }

  /** The independent program is pdfinfo of poppler. */
  @Test
  void anotherProgram_readsTheDocument() throws Exception {
    Path file = folder.resolve("r.pdf");
    Path out = folder.resolve("out.txt");
    Files.write(file, pdf(SmallSurvey.of(true), true));
    Process p;
    try {
      p =
          new ProcessBuilder("pdfinfo", file.toString())
              .redirectErrorStream(true)
              .redirectOutput(out.toFile())
              .start();
    } catch (IOException e) {
      Assumptions.abort(
          "skipped: no pdfinfo (Debian: apt-get install poppler-utils), so the PDF was not read by"
              + " another program");
      return;
    }
    assertTrue(p.waitFor(60, TimeUnit.SECONDS));
    String said = Files.readString(out);
    assertEquals(0, p.exitValue(), said);
    assertTrue(said.contains("Die survey: small.png"), said);
    assertTrue(said.contains("Pages:           3"), said);
    assertTrue(said.contains("A4"), said);
  }
}
