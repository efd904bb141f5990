package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LightAndContaminationTest {
  private static GreyPhoto die;
  private static DieLocation frame;

  @BeforeAll
  static void draw() {
    die =
        GreyPhoto.of(
            org.diesurvey.synthetic.DieDrawing.draw(
                15,
                org.diesurvey.synthetic.DemoDie.options()
                    .withMaxMegapixels(1.5)
                    .withUmPerPx(1.2)
                    .withSeverity(0)));
    frame = PreparedDie.locate(die);
  }

  private static LightMeter light(BandScan scan) {
    return LightMeter.of(scan.reduced(), scan.factor(), frame);
  }

  /** The blocks alone make some unevenness: in even light this die has 7 %. */
  @ParameterizedTest(name = "{0}")
  @ValueSource(doubles = {0.1, 0.2, 0.35})
  void knownFallOff_isFoundWithinEightPoints(double fallOff) {
    assertTrue(frame.edgeFound());
    GreyPhoto dim = die.copy().times((u, v) -> 1 - fallOff * (u * u + v * v) / 2);
    double found = light(BandScan.of(dim, frame)).fallOff();
    // The die does not reach the corners of the photograph, where u2 + v2 = 2.
    double reached = 0;
    for (var p : frame.corners()) {
      double u = 2 * p.x() / die.width() - 1;
      double v = 2 * p.y() / die.height() - 1;
      reached = Math.max(reached, fallOff * (u * u + v * v) / 2);
    }
    assertEquals(reached, found, 0.08);
  }

  @Test
  void spotsOfKnownSize_areFoundWithinAThird() {
    GreyPhoto dirty = die.copy();
    double area = 0;
    double[][] spots = {{0.3, 0.4, 24, 0.02}, {0.6, 0.5, 18, 1}, {0.55, 0.7, 30, 0.02}};
    for (double[] s : spots) {
      int cx = (int) (s[0] * die.width());
      int cy = (int) (s[1] * die.height());
      for (int y = cy - 40; y < cy + 40; y++) {
        for (int x = cx - 40; x < cx + 40; x++) {
          if (Math.hypot(x - cx, y - cy) < s[2]) {
            dirty.raster().set(x, y, (float) s[3]);
            area++;
          }
        }
      }
    }
    BandScan scan = BandScan.of(dirty, frame);
    Contamination found =
        ContaminationMeter.dirt(scan.reduced(), scan.factor(), frame, light(scan));
    double onDie = frame.widthPx() * frame.heightPx();
    assertEquals(area / onDie, found.share(), area / onDie / 3);
    assertTrue(found.brightShare() > 0 && found.darkShare() > 0);
    BandScan clean = BandScan.of(die, frame);
    Contamination none =
        ContaminationMeter.dirt(clean.reduced(), clean.factor(), frame, light(clean));
    assertTrue(none.share() < 0.001, "on a clean die " + none.share());
  }

  @Test
  void clippedShares_areExact() {
    GreyPhoto p =
        GreyPhoto.of(
            400, 300, (x, y) -> x < 40 ? 0 : x < 100 ? 1 : 0.4 + 0.1 * Math.sin(x / 7 + y / 5));
    Exposure e = BandScan.of(p, p.whole()).exposure();
    assertEquals(0.1, e.blackShare(), 1e-12);
    assertEquals(0.15, e.whiteShare(), 1e-12);
  }
}
