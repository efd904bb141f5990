package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Colour that says something is used; colour that does not, changes nothing. */
class ColourTest {
  /** Share of tiles that keep their class; 97.7 % measured with the present model. */
  private static final double LEAST_SAME = 0.97;

  @TempDir static Path folder;
  private static DrawnDie die;
  private static SurveyResult plain;

  /** Colour of a pixel at a place from its red, green and blue. */
  private interface Recolour {
    int[] at(int x, int[] rgb);
  }

  @BeforeAll
  static void draw() throws IOException {
    die =
        DieDrawing.draw(
            21,
            DrawOptions.defaults()
                .withMaxMegapixels(0.8)
                .withUmPerPx(0.8)
                .withFraming(DrawOptions.Framing.WHOLE_DIE)
                .withStyle(DrawOptions.Style.SHOWPIECE));
    plain = survey("plain", (x, c) -> c);
  }

  private static SurveyResult survey(String name, Recolour recolour) throws IOException {
    int w = die.widthPx();
    BufferedImage image = new BufferedImage(w, die.heightPx(), BufferedImage.TYPE_INT_RGB);
    byte[] rgb = die.rgb();
    for (int i = 0; i < w * die.heightPx(); i++) {
      int[] c = {rgb[3 * i] & 255, rgb[3 * i + 1] & 255, rgb[3 * i + 2] & 255};
      int[] out = recolour.at(i % w, c);
      int value = 0;
      for (int k = 0; k < 3; k++) {
        value = value << 8 | Math.max(0, Math.min(255, out[k]));
      }
      image.setRGB(i % w, i / w, value);
    }
    Path file = folder.resolve(name + ".png");
    ImageIO.write(image, "png", file.toFile());
    try (DiePhoto photo = DiePhoto.open(file)) {
      return DieSegmenter.withDefaults()
          .survey(
              photo, new ScaleInput.Known(Calibration.ofPixelPitch(die.truth().umPerPx(), 0.001)));
    }
  }

  private static double sameTiles(SurveyResult a, SurveyResult b) {
    TileProbabilities p = a.tiles();
    TileProbabilities q = b.tiles();
    assertEquals(p.grid().columns(), q.grid().columns());
    assertEquals(p.grid().rows(), q.grid().rows());
    int same = 0;
    for (int t = 0; t < p.grid().count(); t++) {
      same += p.best(t) == q.best(t) ? 1 : 0;
    }
    return same / (double) p.grid().count();
  }

  private static boolean hueUsed(SurveyResult r) {
    return r.survey().preparation().steps().stream()
        .anyMatch(s -> s.kind().id().equals("grey-from-hue"));
  }

  private static int luma(int[] c) {
    return (int) Math.round(0.299 * c[0] + 0.587 * c[1] + 0.114 * c[2]);
  }

  @Test
  void greyPhoto_givesTheSameClasses() throws IOException {
    SurveyResult grey = survey("grey", (x, c) -> new int[] {luma(c), luma(c), luma(c)});
    assertFalse(hueUsed(plain));
    assertFalse(hueUsed(grey));
    double same = sameTiles(plain, grey);
    assertTrue(same >= LEAST_SAME, 100 * same + " % of the tiles alike");
  }

  @Test
  void whiteBalanceThatDriftsBetweenFields_makesNoClasses() throws IOException {
    int half = die.widthPx() / 2;
    SurveyResult drifted =
        survey(
            "drift",
            (x, c) ->
                x < half
                    ? c
                    : new int[] {
                      (int) Math.round(1.05 * c[0]), c[1], (int) Math.round(0.92 * c[2])
                    });
    double same = sameTiles(plain, drifted);
    assertTrue(same >= LEAST_SAME, 100 * same + " % of the tiles alike");
  }

  /** Layers that differ in hue alone: luma stays within a level, red against blue carries all. */
  @Test
  void layoutInHueAlone_isReadAsInBrightness() throws IOException {
    SurveyResult hue =
        survey(
            "hue",
            (x, c) -> {
              double d = 0.5 * (luma(c) - 100);
              return luma(c) < 30
                  ? c
                  : new int[] {
                    (int) Math.round(120 + d),
                    (int) Math.round(120 - 0.299 / 0.587 * d),
                    (int) Math.round(120.0)
                  };
            });
    assertTrue(hueUsed(hue));
    double same = sameTiles(plain, hue);
    assertTrue(same >= 0.8, 100 * same + " % of the tiles alike");
  }
}
