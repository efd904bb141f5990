package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.raster.Axis;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Seams put into parts of drawn photographs (ordinary light, dirt, noise, mostly JPEG; layout
 * turned by more than 0.3 degrees; drawn without seams). 8 parts of each of 8 photographs.
 */
class SeamFinderTest {
  /** Drawn as one field, turned by more than 0.3 degrees at this size. */
  private static final long[] SEEDS = {7, 9, 11, 17, 20, 21, 28, 51};

  private static final int PARTS = 8;
  private static final List<GreyPhoto> PHOTOS = new ArrayList<>();

  @BeforeAll
  static void draw() {
    for (long seed : SEEDS) {
      var die = DieDrawing.draw(seed, DrawOptions.defaults().withMaxMegapixels(1.6));
      assertEquals(0, die.truth().optics().framePx(), "seed " + seed);
      assertTrue(Math.abs(die.truth().rotationDeg()) > 0.3, "seed " + seed);
      GreyPhoto whole = GreyPhoto.of(die);
      SplittableRandom random = new SplittableRandom(seed);
      for (int i = 0; i < PARTS; i++) {
        int w = (int) (0.75 * whole.width());
        int h = (int) (0.75 * whole.height());
        PHOTOS.add(
            whole.part(
                random.nextInt(whole.width() - w), random.nextInt(whole.height() - h), w, h));
      }
    }
  }

  private static List<Seam> seams(GreyPhoto photo) {
    BandScan scan = BandScan.of(photo, photo.whole());
    List<Seam> all = new ArrayList<>(SeamFinder.find(scan.columns(), Axis.Y));
    all.addAll(SeamFinder.find(scan.rows(), Axis.X));
    return all;
  }

  /** How many of the photographs show a seam of that step where it was put. */
  private static int found(double step) {
    SplittableRandom random = new SplittableRandom(1);
    int hits = 0;
    for (GreyPhoto photo : PHOTOS) {
      boolean vertical = random.nextBoolean();
      int side = vertical ? photo.width() : photo.height();
      int place = side / 4 + random.nextInt(side / 2);
      List<Seam> seams = seams(photo.copy().seam(vertical, place, step));
      boolean hit =
          seams.stream()
              .anyMatch(
                  s ->
                      s.along() == (vertical ? Axis.Y : Axis.X)
                          && Math.abs(s.placePx() - place) <= 1);
      hits += hit ? 1 : 0;
    }
    return hits;
  }

  /** Measured: none of 64. */
  @Test
  void photographsWithoutSeams_giveNoFalseAlarm() {
    long alarms = PHOTOS.stream().filter(p -> !seams(p).isEmpty()).count();
    assertTrue(alarms <= 1, alarms + " of " + PHOTOS.size());
  }

  /** Measured: about two thirds at 5 %, four fifths at 10 %; the rest drown in dense layout. */
  @Test
  void plainSeams_areMostlyFound() {
    int hits = found(0.08);
    assertTrue(hits >= 0.65 * PHOTOS.size(), hits + " of " + PHOTOS.size());
  }

  @Test
  void stepOfASeam_isMeasured() {
    GreyPhoto plain = GreyPhoto.of(600, 500, (x, y) -> 0.5 + 0.05 * Math.sin(x / 9 + y / 13));
    List<Seam> seams = seams(plain.noisy(0.01, 3).seam(true, 333, 0.03));
    assertEquals(1, seams.size());
    assertEquals(333, seams.get(0).placePx());
    assertEquals(0.03, seams.get(0).stepShare(), 0.004);
  }
}
