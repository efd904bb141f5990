package org.diesurvey.calibration.micrometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.OptionalInt;
import java.util.Random;
import javax.imageio.ImageIO;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.DivisionTolerance;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.synthetic.DrawnMicrometer;
import org.diesurvey.synthetic.MicrometerDrawing;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MicrometerFinderTest {
  @TempDir Path folder;

  private static MicrometerReading read(LinePainter p) {
    return MicrometerFinder.read(p.photographed(), "m.png", ScaleFacts.ofDivision(10));
  }

  private static String refusal(LinePainter p) {
    DieInputException e = assertThrows(DieInputException.class, () -> read(p));
    assertEquals(Reason.MICROMETER_UNUSABLE, e.reason(), e.getMessage());
    assertTrue(e.getMessage().startsWith("m.png: "), e.getMessage());
    assertTrue(e.getMessage().endsWith("."), e.getMessage());
    assertFalse(e.getMessage().contains("\n"), e.getMessage());
    return e.getMessage();
  }

  private static LinePainter paper() {
    return new LinePainter(480, 320, 0.7);
  }

  @Test
  void scaleAtRightAngles_agreesWithTheSpectrumOfItsRows() {
    LinePainter p = paper().scale(20.3, 13.37, 33, 100, 200);
    MicrometerReading m = read(p);
    assertEquals(33, m.linesUsed());
    // Frequency of the highest peak of a discrete Fourier transform (Commons Math), as an
    // independent way to the same period. A window of 33 periods resolves 1 / 33 of it; the peak of
    // a well sampled line is found to a small part of that.
    float[] row = new float[p.width()];
    double[] sum = new double[16384];
    for (int y = 120; y < 180; y++) {
      p.readGray(new PixelRect(0, y, p.width(), 1), row);
      for (int x = 14; x < 454; x++) {
        sum[x] += (0.7 - row[x]) / 60;
      }
    }
    Complex[] f =
        new FastFourierTransformer(DftNormalization.STANDARD).transform(sum, TransformType.FORWARD);
    int best = sum.length / 20;
    for (int i = sum.length / 20; i < sum.length / 8; i++) {
      best = f[i].abs() > f[best].abs() ? i : best;
    }
    assertEquals(sum.length / (double) best, m.step().px().value(), 0.02 * m.step().px().value());
    assertEquals(13.37, m.step().px().value(), 0.003);
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {700001, 700002, 700003, 700004})
  void drawnMicrometer_isReadWithinItsInterval(long seed) {
    DrawnMicrometer d = MicrometerDrawing.draw(seed);
    MicrometerReading m =
        MicrometerFinder.read(
            new DrawnSource(d), "m", ScaleFacts.ofDivision(d.truth().divisionUm()));
    MicrometerCalibration c =
        MicrometerCalibration.of(java.util.List.of(m), DivisionTolerance.NONE);
    assertEquals(1, c.umPerPx().value() / d.truth().umPerPx(), 0.005);
    assertTrue(
        c.evidence().interval95().contains(d.truth().umPerPx()),
        c.evidence().interval95() + " lacks " + d.truth());
    double turn = LineDirections.apart(m.rotationDeg().value(), d.truth().rotationDeg());
    assertEquals(0, turn, 0.1);
  }

  /** Photographs rendered by others, with their scale beside them. */
  @ParameterizedTest(name = "micrometer_{0}")
  @ValueSource(ints = {1, 2, 3, 4})
  void outsidePhotograph_isReadWithinATenthOfAPercent(int number) throws IOException {
    Path at = Path.of("").toAbsolutePath();
    while (at != null && !Files.isDirectory(at.resolve("../shared/data/open-dies/micrometer"))) {
      at = at.getParent();
    }
    Assumptions.assumeTrue(at != null, "skipped: ../shared/data/open-dies/micrometer is absent");
    Path data = at.resolve("../shared/data/open-dies/micrometer");
    JsonNode truth =
        new ObjectMapper().readTree(data.resolve("micrometer_" + number + ".json").toFile());
    try (DiePhoto photo = DiePhoto.open(data.resolve("micrometer_" + number + ".jpg"))) {
      MicrometerReading m = MicrometerFinder.read(photo.pixels(), "m", ScaleFacts.ofDivision(10));
      double pitch = truth.path("um_per_px").asDouble();
      assertEquals(1, m.umPerPx() / pitch, 0.001);
      assertTrue(
          MicrometerCalibration.of(java.util.List.of(m), DivisionTolerance.NONE)
              .evidence()
              .interval95()
              .contains(pitch));
      assertEquals(truth.path("rotation_deg").asDouble(), m.rotationDeg().value(), 0.05);
    }
  }

  @Test
  void sixteenBitPhotograph_isReadLikeAnother() throws IOException {
    LinePainter p = paper().scale(30, 20.25, 21, 80, 220).photographed();
    BufferedImage image = new BufferedImage(p.width(), p.height(), BufferedImage.TYPE_USHORT_GRAY);
    float[] grey = new float[p.width() * p.height()];
    p.readGray(new PixelRect(0, 0, p.width(), p.height()), grey);
    for (int i = 0; i < grey.length; i++) {
      // A camera of 12 bits that fills the lower sixteenth only.
      image.getRaster().setSample(i % p.width(), i / p.width(), 0, (int) (4095 * grey[i]));
    }
    Path file = folder.resolve("m.png");
    ImageIO.write(image, "png", file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      DieInputException e =
          assertThrows(
              DieInputException.class,
              () -> MicrometerFinder.read(photo.pixels(), "m", ScaleFacts.ofDivision(-1)));
      assertEquals(Reason.SCALE_INVALID, e.reason());
      MicrometerReading m = MicrometerFinder.read(photo.pixels(), "m", ScaleFacts.ofDivision(10));
      assertEquals(20.25, m.step().px().value(), 0.004);
      assertEquals(21, m.linesUsed());
    }
  }

  @Test
  void missingLines_doNotUpsetTheCount() {
    LinePainter p = paper();
    for (int i : new int[] {0, 1, 2, 4, 5, 6, 7, 10, 11, 12, 14, 15, 16, 17, 18}) {
      p.line(30 + i * 22.4, 60, 30 + i * 22.4, 230, 0.25);
    }
    MicrometerReading m = read(p);
    assertEquals(19, m.places());
    assertEquals(15, m.linesUsed());
    assertEquals(22.4, m.step().px().value(), 0.005);
  }

  @Test
  void everySecondLineErasedOverMostOfTheScale_isRefused() {
    LinePainter p = paper();
    for (int i = 0; i < 30; i++) {
      if (i % 2 == 0 || i > 24) {
        p.line(20 + i * 14.5, 60, 20 + i * 14.5, 230, 0.2);
      }
    }
    assertTrue(refusal(p).contains("every second"));
  }

  @Test
  void everySecondLineFaint_isRefused() {
    LinePainter p = paper();
    for (int i = 0; i < 20; i++) {
      p.line(20 + i * 22.5, 60, 20 + i * 22.5, 230, i % 2 == 0 ? 0.2 : 0.58);
    }
    assertTrue(refusal(p).contains("read in two ways"));
  }

  @Test
  void everySecondLineGone_betraysItselfByTheLongerLines() {
    LinePainter p = paper();
    for (int i = 0; i <= 30; i += 2) {
      p.line(15 + i * 15, i % 10 == 0 ? 60 : 120, 15 + i * 15, 230, 0.2);
    }
    assertTrue(refusal(p).contains("--long-lines 5"));
    MicrometerReading stated =
        MicrometerFinder.read(p, "m.png", new ScaleFacts(10, OptionalInt.of(5)));
    assertEquals(30, stated.step().px().value(), 0.01);
  }

  @Test
  void doubledLines_areRefused() {
    LinePainter p = paper();
    p.scale(20, 30, 15, 60, 230).scale(29, 30, 15, 60, 230);
    assertTrue(refusal(p).contains("doubled"));
  }

  @Test
  void twoScales_areRefused() {
    LinePainter p = paper().scale(20, 14, 32, 40, 140).scale(20, 19.3, 23, 190, 290);
    assertTrue(refusal(p).contains("two scales"));
  }

  @Test
  void crossingLines_areRefused() {
    LinePainter p = paper().scale(60, 12, 30, 40, 130);
    for (int i = 0; i < 14; i++) {
      p.line(90, 140 + 12 * i, 350, 140 + 12 * i, 0.2);
    }
    assertTrue(refusal(p).contains("cross at 90 degrees"));
  }

  @Test
  void fan_isRefused() {
    LinePainter p = paper();
    for (int i = -9; i <= 9; i++) {
      p.line(240 + 22 * i, 40, 240 + 17.5 * i, 280, 0.2);
    }
    String sentence = refusal(p);
    assertTrue(sentence.contains("no scale") || sentence.contains("not parallel"), sentence);
  }

  @Test
  void fourLines_areTooFew() {
    assertTrue(refusal(paper().scale(100, 60, 4, 60, 230)).contains("only 4 division lines"));
  }

  @Test
  void burntOutPicture_isRefused() {
    LinePainter p = new LinePainter(480, 320, 1.2).scale(20, 20, 22, 60, 230);
    assertTrue(refusal(p).contains("burnt out"));
  }

  @Test
  void irregularLines_areRefused() {
    LinePainter p = paper();
    Random random = new Random(3);
    for (int i = 0; i < 24; i++) {
      double x = 20 + i * 18 + 12 * random.nextDouble();
      p.line(x, 60, x, 230, 0.2);
    }
    assertFalse(refusal(p).isEmpty());
  }

  @Test
  void emptyPlateAndNoise_areNoScale() {
    assertTrue(refusal(paper()).contains("no scale of a stage micrometer"));
    LinePainter landscape = paper();
    Random random = new Random(5);
    for (int i = 0; i < 60; i++) {
      landscape.line(
          480 * random.nextDouble(),
          320 * random.nextDouble(),
          480 * random.nextDouble(),
          320 * random.nextDouble(),
          random.nextDouble());
    }
    assertFalse(refusal(landscape).isEmpty());
  }

  /** A photograph of a die is full of rows, but it is no micrometer. */
  @Test
  void dieRenderedByOthers_isNoScale() {
    Path at = Path.of("").toAbsolutePath();
    while (at != null && !Files.isDirectory(at.resolve("../shared/data/real-photos"))) {
      at = at.getParent();
    }
    Assumptions.assumeTrue(at != null, "skipped: ../shared/data/real-photos is absent");
    Path file = at.resolve("../shared/data/real-photos/corner-d-metal-on.jpg");
    try (DiePhoto photo = DiePhoto.open(file)) {
      DieInputException e =
          assertThrows(
              DieInputException.class,
              () -> MicrometerFinder.read(photo.pixels(), "m", ScaleFacts.ofDivision(10)));
      assertEquals(Reason.MICROMETER_UNUSABLE, e.reason());
    }
  }

  @Test
  void lightThatFallsOff_doesNotBiasTheStep() {
    LinePainter p = paper().scale(25, 17.9, 25, 70, 240).photographed();
    LinePainter shaded = new LinePainter(480, 320, 0);
    float[] grey = new float[480 * 320];
    p.readGray(new PixelRect(0, 0, 480, 320), grey);
    for (int i = 0; i < grey.length; i++) {
      double x = (i % 480) / 480.0;
      grey[i] *= (float) (1 - 0.5 * x * x);
    }
    float[] target = shaded.pixels();
    System.arraycopy(grey, 0, target, 0, grey.length);
    MicrometerReading m = MicrometerFinder.read(shaded, "m", ScaleFacts.ofDivision(10));
    assertEquals(17.9, m.step().px().value(), 0.003);
    assertEquals(25, Arrays.stream(m.lines().toArray()).count());
  }
}
