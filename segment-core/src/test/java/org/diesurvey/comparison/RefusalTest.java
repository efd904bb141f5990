package org.diesurvey.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Collections;
import java.util.List;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.registration.CoarseSearch;
import org.diesurvey.comparison.registration.PatchMatch;
import org.diesurvey.comparison.registration.Registrar;
import org.diesurvey.comparison.registration.RobustMap;
import org.diesurvey.raster.PlaneTransform;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** From how many local matches on two dies are taken for one chip. */
class RefusalTest {
  private static final PlaneTransform SAME = new PlaneTransform(1, 0, 0, 0, 1, 0);
  private static final PatchMatch MATCH = new PatchMatch(0, 0, 0, 0, 0.9, 0.5);

  /** Like pad rings of different chips: up to 30 matches within half a pixel to one. */
  @ParameterizedTest
  @CsvSource({
    "16, 0.10, 1.00, true",
    "15, 0.10, 1.00, false",
    "17, 0.46, 0.94, false",
    "30, 0.92, 0.81, false",
    "48, 0.65, 0.90, true",
    "48, 0.65, 0.29, false"
  })
  void fewMatches_mustLieSharply(int agreeing, double scatter, double share, boolean common) {
    Registrar.Found found =
        new Registrar.Found(
            new CoarseSearch.Guess(Orientation.M0, 1, SAME, 1),
            SAME,
            1,
            null,
            (int) (agreeing / share),
            new RobustMap(SAME, Collections.nCopies(agreeing, MATCH), scatter),
            share,
            List.of());
    assertEquals(common, LayoutComparer.common(found));
  }
}
