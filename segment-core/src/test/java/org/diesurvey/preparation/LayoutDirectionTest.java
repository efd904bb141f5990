package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LayoutDirectionTest {
  /** An edge as a lens shows it, about 2 px from a tenth to nine tenths. */
  private static double step(double px) {
    return 0.5 + 0.5 * Math.tanh(1.1 * px);
  }

  /** 1 on a bar of a width that repeats with a period, 0 beside it. */
  static double bar(double place, double period, double width) {
    return step(width / 2 - Math.abs(place % period - period / 2));
  }

  @ParameterizedTest(name = "{0} deg")
  @ValueSource(doubles = {-11, -4.2, 0, 0.8, 6.5, 12})
  void rectanglesTurned_giveTheirAngleWithinAFifthOfADegree(double deg) {
    TurnedDie frame = new TurnedDie(300, 300, 600, 600, deg);
    DrawnSource photo =
        DrawnSource.noisy(
            600,
            600,
            0.01,
            3,
            (x, y) -> {
              double u = frame.u(x, y) + 1000;
              double v = frame.v(x, y) + 1000;
              return 0.35 + 0.25 * bar(u, 23, 9) * bar(v, 17, 10);
            });
    OptionalDouble found = LayoutDirection.of(photo);
    assertTrue(found.isPresent());
    assertEquals(deg, found.getAsDouble(), 0.2);
  }

  @Test
  void noise_hasNoDirection() {
    DrawnSource photo = DrawnSource.noisy(600, 600, 0.1, 4, (x, y) -> 0.5);
    assertTrue(LayoutDirection.of(photo).isEmpty());
  }

  /** Discs have edges in all directions alike. */
  @Test
  void discs_haveNoDirection() {
    DrawnSource photo =
        DrawnSource.of(
            600,
            600,
            (x, y) -> 0.3 + 0.4 * step(9 - Math.hypot(x % 29.37 - 14.7, y % 31.71 - 15.9)));
    assertTrue(LayoutDirection.of(photo).isEmpty());
  }
}
