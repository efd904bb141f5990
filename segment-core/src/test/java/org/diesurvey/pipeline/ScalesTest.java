package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.PixelPoint;
import org.junit.jupiter.api.Test;

class ScalesTest {
  private static final String FILE = "tray/die.png";

  private static DieLocation frame(boolean edgeFound, double width, double height, double edgePx) {
    return new DieLocation(
        edgeFound,
        List.of(
            new PixelPoint(10, 20),
            new PixelPoint(10 + width, 20),
            new PixelPoint(10 + width, 20 + height),
            new PixelPoint(10, 20 + height)),
        0,
        edgePx);
  }

  private static Calibration ofSize(DieLocation f, double widthMm, double heightMm, double uMm) {
    return Scales.resolve(new ScaleInput.OfDieSize(widthMm, heightMm, uMm), f, FILE).orElseThrow();
  }

  /** 2 mm over 4000 px are 0.5 um/px. */
  @Test
  void dieSize_givesThePitch() {
    Calibration k = ofSize(frame(true, 4000, 3000, 0), 2, 1.5, 0);
    assertEquals(0.5, k.umPerPx().value(), 1e-12);
    assertEquals(0, k.umPerPx().standardUncertainty(), 1e-12);
    assertEquals(ScaleOrigin.DIE_SIZE, k.origin());
  }

  @Test
  void sidesTheOtherWayRound_giveTheSamePitch() {
    assertEquals(
        ofSize(frame(true, 4000, 3000, 0.5), 2, 1.5, 0.002),
        ofSize(frame(true, 4000, 3000, 0.5), 1.5, 2, 0.002));
  }

  /**
   * GUM arithmetic for a square: p = sqrt(w h / (W H)), so (u(p)/p)^2 = ((u/w)^2 + (u/h)^2) / 4 =
   * (u/w)^2 / 2; an edge length has two ends, u(W) = sqrt(2) e, so ((e sqrt 2)/W)^2 / 2 more.
   */
  @Test
  void uncertainty_isThatOfTheSidesAndOfTheEdges() {
    Calibration k = ofSize(frame(true, 2000, 2000, 2), 1, 1, 0.01);
    double expected = Math.sqrt(0.01 * 0.01 / 2 + Math.pow(2 * Math.sqrt(2) / 2000, 2) / 2);
    assertEquals(expected, k.umPerPx().relativeUncertainty(), 1e-9);
  }

  /** 2.04 x 1.5 mm on 4000 x 3000 px: sides disagree by 2 %, which must show. */
  @Test
  void slightMisfit_isTakenAsUncertainty() {
    Calibration k = ofSize(frame(true, 4000, 3000, 0), 2.04, 1.5, 0);
    assertEquals(0.5 * Math.sqrt(1.02), k.umPerPx().value(), 1e-9);
    assertEquals(Math.log(1.02) / 2, k.umPerPx().relativeUncertainty(), 1e-9);
  }

  @Test
  void sizeThatDoesNotFit_isRefused() {
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> ofSize(frame(true, 4000, 3000, 0.5), 2, 2, 0.01));
    assertEquals(Reason.SCALE_CONTRADICTORY, e.reason());
    assertTrue(e.getMessage().contains(FILE) && e.getMessage().contains("4000 x 3000"));
  }

  @Test
  void sizeWithoutADieEdge_isRefused() {
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> ofSize(frame(false, 4000, 3000, 0.5), 2, 1.5, 0.01));
    assertEquals(Reason.DIE_EDGE_NOT_FOUND, e.reason());
  }

  @Test
  void sizeThatNoDieHas_isRefused() {
    for (double[] s : new double[][] {{0, 1, 0}, {-1, 1, 0}, {1, 500, 0}, {1, 1, -1}, {1, 1, 2}}) {
      DieInputException e =
          assertThrows(DieInputException.class, () -> new ScaleInput.OfDieSize(s[0], s[1], s[2]));
      assertEquals(Reason.SCALE_INVALID, e.reason());
    }
    assertThrows(DieInputException.class, () -> new ScaleInput.OfDieSize(Double.NaN, 1, 0));
  }

  @Test
  void knownScale_isTakenAsItIs_andNoneStaysNone() {
    Calibration k = Calibration.ofPixelPitch(0.4, 0.001);
    DieLocation f = frame(true, 100, 100, 1);
    assertEquals(k, Scales.resolve(new ScaleInput.Known(k), f, FILE).orElseThrow());
    assertTrue(Scales.resolve(ScaleInput.NONE, f, FILE).isEmpty());
  }
}
