package org.diesurvey.preparation.edges;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.TunedValue;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.TurnedDie;
import org.junit.jupiter.api.Test;

/** Each value decides whether a die is found, on pictures where nothing else does. */
class EdgeTuningTest {
  private static final DrawnSource LARGE = photo(new TurnedDie(320, 290, 460, 400, 1));
  private static final DrawnSource SMALL = photo(new TurnedDie(320, 290, 260, 250, 1));
  private static final DrawnSource CUT = photo(new TurnedDie(500, 470, 860, 700, 2));

  /** The second has four fifths of the sides of the first. */
  private static final DrawnSource TWO =
      photo(new TurnedDie(170, 290, 250, 250, 0), new TurnedDie(470, 290, 200, 200, 0));

  private static DrawnSource photo(TurnedDie... dies) {
    return DrawnSource.noisy(
        640,
        580,
        0.01,
        3,
        (x, y) -> {
          for (TurnedDie d : dies) {
            if (d.contains(d.u(x, y), d.v(x, y))) {
              double rows = Math.floorMod((long) Math.floor(d.v(x, y) / 5), 2) == 0 ? 0.1 : -0.1;
              return 0.48 + rows + (d.u(x, y) > 90 && d.v(x, y) > 120 ? 0.12 : 0);
            }
          }
          return 0.06;
        });
  }

  private static EdgeTuning with(EdgeTuning tuning, String name, double value) {
    return tuning.values().stream()
        .filter(v -> v.name().equals(name))
        .map(TunedValue::with)
        .findFirst()
        .orElseThrow()
        .apply(value);
  }

  private static void assertFound(int dies, DrawnSource photo, EdgeTuning tuning) {
    List<DieEdge> found = new DieEdgeFinder(photo, tuning).find();
    assertEquals(dies, found.size());
  }

  @Test
  void shareOfASingleDie_dependsOnTheGroundAroundIt() {
    EdgeTuning tuning = EdgeTuning.DEFAULT;
    assertFound(1, LARGE, tuning);
    assertFound(1, SMALL, tuning);
    EdgeTuning unchecked = with(tuning, "checked", 0.9);
    assertFound(1, LARGE, unchecked);
    assertFound(0, SMALL, unchecked);
    assertFound(0, LARGE, with(unchecked, "alone", 0.9));
  }

  @Test
  void shareOfADieThatIsCut() {
    assertFound(1, CUT, EdgeTuning.DEFAULT);
    assertFound(0, CUT, with(EdgeTuning.DEFAULT, "cut", 0.99));
  }

  @Test
  void sharesOfSeveralDies() {
    assertFound(2, TWO, EdgeTuning.DEFAULT);
    assertFound(1, TWO, with(EdgeTuning.DEFAULT, "ofLargest", 0.7));
    assertFound(1, TWO, with(EdgeTuning.DEFAULT, "several", 0.14));
  }

  @Test
  void whatMustBeSeenOfAnEdge_andMayBeStrangeOutside() {
    assertFound(0, LARGE, with(EdgeTuning.DEFAULT, "seen", 1.01));
    assertFound(0, LARGE, with(EdgeTuning.DEFAULT, "strange", 1e-9));
  }
}
