package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.inspection.Resolution;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.FinePattern.Verdict;
import org.diesurvey.survey.Period;
import org.junit.jupiter.api.Test;

final class FinePatternsTest {
  private static final Optional<Calibration> SCALE = Optional.of(Calibration.ofPixelPitch(0.5, 0));
  private static final FinePatterns SHARP = new FinePatterns(new Resolution(2.2, true), SCALE);
  private static final FinePatterns BLURRED = new FinePatterns(new Resolution(6, false), SCALE);

  private static Period period(double um, double direction, double strength) {
    return new Period(new Measured(um, 0.01), direction, strength);
  }

  private static Verdict memory(FinePatterns p, Period... periods) {
    return p.of(DieClass.MEMORY_ARRAY, List.of(periods)).orElseThrow().verdict();
  }

  @Test
  void cells_needFirmShortPeriodsInBothDirections() {
    assertEquals(Verdict.RESOLVED, memory(SHARP, period(3, 0, 0.6), period(2.2, 90, 0.4)));
    assertEquals(Verdict.ONE_DIRECTION, memory(SHARP, period(3, 0, 0.6), period(2.2, 90, 0.1)));
    assertEquals(Verdict.ONE_DIRECTION, memory(BLURRED, period(3, 0, 0.6), period(40, 90, 0.9)));
  }

  @Test
  void withoutPeriods_theLimitIsTheCameraOrTheOptics() {
    assertEquals(Verdict.ALIASED, memory(SHARP));
    assertEquals(Verdict.NOT_RESOLVABLE, memory(BLURRED));
    assertEquals(
        3.0, BLURRED.of(DieClass.LOGIC, List.of()).orElseThrow().finestUm().orElseThrow(), 1e-12);
  }

  @Test
  void rows_needOnePeriod_andMacrosHaveNoSuchPattern() {
    assertEquals(
        Verdict.RESOLVED,
        SHARP.of(DieClass.LOGIC, List.of(period(7.5, 90, 0.2))).orElseThrow().verdict());
    assertTrue(SHARP.of(DieClass.HARD_MACRO, List.of(period(3, 0, 0.9))).isEmpty());
  }
}
