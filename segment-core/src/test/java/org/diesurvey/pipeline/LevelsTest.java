package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferUShort;
import java.io.IOException;
import java.nio.file.Path;
import java.util.function.DoubleUnaryOperator;
import javax.imageio.ImageIO;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.report.picture.LabelMap;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.DemoDie;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a camera does with its levels must not change what is found. */
class LevelsTest {
  /** Largest share of the die whose class may change. */
  private static final double MOST_CHANGED = 0.01;

  /**
   * The same where a notice says that levels are few or the tone unusual; measured: 3.3 % for three
   * tenths of the levels in 8 bits, 2.2 % for a power of 2.2.
   */
  private static final double MOST_CHANGED_AND_TOLD = 0.035;

  @TempDir private static Path folder;

  private static float[] grey;
  private static int width;
  private static double umPerPx;
  private static Survey plain;

  @BeforeAll
  static void drawAndSurvey() throws IOException {
    DrawnDie die = DemoDie.draw();
    umPerPx = die.truth().umPerPx();
    try (DiePhoto p = DiePhoto.open(DieFiles.write(die, folder, "c", DieFiles.Format.PNG))) {
      width = p.pixels().width();
      grey = new float[width * p.pixels().height()];
      p.pixels().readGray(new PixelRect(0, 0, width, p.pixels().height()), grey);
    }
    plain = survey(16, v -> v, 65535);
  }

  private static Survey survey(int bits, DoubleUnaryOperator tone, int most) throws IOException {
    write(bits, tone, most);
    try (DiePhoto p = DiePhoto.open(folder.resolve("levels.png"))) {
      return DieSegmenter.withDefaults()
          .segment(p, Calibration.ofPixelPitch(umPerPx, 0.002 * umPerPx));
    }
  }

  private static void write(int bits, DoubleUnaryOperator tone, int most) throws IOException {
    int type = bits == 8 ? BufferedImage.TYPE_BYTE_GRAY : BufferedImage.TYPE_USHORT_GRAY;
    BufferedImage image = new BufferedImage(width, grey.length / width, type);
    for (int i = 0; i < grey.length; i++) {
      double v = Math.max(0, Math.min(1, tone.applyAsDouble(grey[i])));
      int sample = (int) Math.round(v * most);
      if (bits == 8) {
        image.getRaster().setSample(i % width, i / width, 0, sample);
      } else {
        ((DataBufferUShort) image.getRaster().getDataBuffer()).getData()[i] = (short) sample;
      }
    }
    ImageIO.write(image, "png", folder.resolve("levels.png").toFile());
  }

  /** Share of the die whose class differs from that of the plain photograph. */
  private static double changed(Survey other) {
    byte[] a = LabelMap.of(plain).array();
    byte[] b = LabelMap.of(other).array();
    long die = 0;
    long off = 0;
    for (int i = 0; i < a.length; i++) {
      die += a[i] != 0 || b[i] != 0 ? 1 : 0;
      off += a[i] != b[i] ? 1 : 0;
    }
    return off / (double) die;
  }

  private static boolean told(Survey s, String notice) {
    return s.notices().stream().anyMatch(n -> n.id().equals(notice));
  }

  @Test
  void twelveBitsOfTheCamera_changeNothing() throws IOException {
    Survey s = survey(16, v -> v, 4080);
    assertTrue(changed(s) <= MOST_CHANGED, "changed " + changed(s));
    assertEquals(
        12, s.preparation().steps().get(0).figures().get("bits_in_use"), "told in the survey");
  }

  @ParameterizedTest(name = "{0} of the levels from {1}, {2} bits")
  @CsvSource({"0.3, 0, 8", "0.2, 0.1, 12", "0.08, 0.7, 16"})
  void gainAndOffset_areToldIfTheyChangeAnything(double gain, double offset, int bits)
      throws IOException {
    Survey s = survey(bits == 8 ? 8 : 16, v -> offset + gain * v, (1 << bits) - 1);
    assertTrue(told(s, "few-levels"));
    assertTrue(changed(s) <= MOST_CHANGED_AND_TOLD, "changed " + changed(s));
  }

  @ParameterizedTest(name = "power {0}")
  @CsvSource({"0.5", "0.7", "1.4", "2.2"})
  void power_changesNothing_orIsTold(double power) throws IOException {
    Survey s = survey(16, v -> Math.pow(v, power), 65535);
    double most = told(s, "unusual-tone") ? MOST_CHANGED_AND_TOLD : MOST_CHANGED;
    assertTrue(changed(s) <= most, "changed " + changed(s));
    assertEquals(power > 2, told(s, "unusual-tone"), "only the strongest power makes it unusual");
  }

  @ParameterizedTest(name = "{0} bits in 16")
  @CsvSource({"8", "10", "12", "14", "16"})
  void bitsInUse_areTheScale(int bits) throws IOException {
    int most = (1 << bits) - 1;
    write(16, v -> v, most);
    try (DiePhoto p = DiePhoto.open(folder.resolve("levels.png"))) {
      PixelRect all = new PixelRect(0, 0, width, grey.length / width);
      float[] got = new float[grey.length];
      int[] rgb = new int[grey.length];
      p.pixels().readGray(all, got);
      p.pixels().readRgb(all, rgb);
      assertEquals(bits, p.levels().bits());
      for (int i = 0; i < got.length; i++) {
        assertEquals(grey[i], got[i], 0.51 / most);
        assertEquals(grey[i] * 255, rgb[i] & 0xff, 1, "pictures show the same levels");
      }
    }
  }
}
