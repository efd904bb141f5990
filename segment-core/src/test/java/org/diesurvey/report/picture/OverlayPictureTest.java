package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.quantity.Measured;
import org.diesurvey.report.ImageSource;
import org.diesurvey.report.page.ReportPage;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OverlayPictureTest {

  private static Survey empty(int width, int height) {
    return new Survey(
        new PhotoInfo("x.png", "0".repeat(64), 1, "PNG", width, height, 8, 1, Optional.empty()),
        new SurveyMethod(
            new Software("diesurvey", "0.1.0", "none", "0".repeat(64)),
            1,
            OptionalDouble.empty(),
            16),
        new ScaleRecord(Optional.of(Calibration.ofPixelPitch(0.5, 0)), Optional.empty()),
        new DieFrame(
            false,
            List.of(
                new Point(0, height),
                new Point(width, height),
                new Point(width, 0),
                new Point(0, 0)),
            0,
            Optional.of(Measured.exact(width / 2000.0)),
            Optional.of(Measured.exact(height / 2000.0)),
            Optional.of(Measured.exact(width * height / 4e6)),
            (double) width * height),
        Preparation.NONE,
        List.of(),
        List.of(),
        List.of(),
        Optional.empty());
  }

  @ParameterizedTest
  @CsvSource({"1, 1", "3000, 2", "2, 3000", "2401, 10", "799, 799"})
  void photoOfAnyShape_andASurveyWithNothingInIt_giveAPictureAndAPage(int width, int height) {
    Survey survey = empty(width, height);
    BufferedImage photo = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    BufferedImage picture = OverlayPicture.of(survey, new ImageSource(photo));
    assertTrue(picture.getWidth() > width / 3 && picture.getWidth() < 2700);
    PhotoPyramid pyramid = PhotoPyramid.of(new ImageSource(photo));
    String page = ReportPage.html(survey, picture, pyramid, Instant.EPOCH);
    assertTrue(page.contains("which shows no die edge, no region of any class was found."));
    assertTrue(page.contains("No uncertainty was stated for it"));
  }

  @Test
  void everyClass_isDrawnInItsOwnColourOnTheOutline() {
    BufferedImage grey = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
    BufferedImage picture = OverlayPicture.of(SmallSurvey.of(true), new ImageSource(grey));
    for (DieClass c : List.of(DieClass.MEMORY_ARRAY, DieClass.LOGIC, DieClass.PAD_RING)) {
      int nearest = 255;
      int colour = ClassStyle.of(c).color().getRGB();
      for (int y = 0; y < 600; y++) {
        for (int x = 0; x < 800; x++) {
          nearest = Math.min(nearest, distance(colour, picture.getRGB(x, y)));
        }
      }
      // Lines are smoothed against what lies below them.
      assertTrue(nearest < 48, c + " is not to be seen, nearest colour is off by " + nearest);
    }
  }

  @Test
  void severeNotices_standAboveThePhotograph_andOthersDoNot() {
    ImageSource photo = new ImageSource(new BufferedImage(900, 600, BufferedImage.TYPE_INT_RGB));
    Survey plain = empty(900, 600);
    int bare = OverlayPicture.of(plain, photo).getHeight();
    Notice severe = new Notice("metal-left", "Metal seems to be left.", "Delayer the die.");
    int told = OverlayPicture.of(plain.withNotices(List.of(severe)), photo).getHeight();
    assertTrue(told > bare + 15, told + " px high, " + bare + " px without a notice");
    Notice mild = new Notice("several-planes", "Several pictures.", "Choose one.");
    assertEquals(bare, OverlayPicture.of(plain.withNotices(List.of(mild)), photo).getHeight());
  }

  private static int distance(int a, int b) {
    int most = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
      most = Math.max(most, Math.abs((a >> shift & 0xff) - (b >> shift & 0xff)));
    }
    return most;
  }

  @Test
  void hatches_differBetweenClasses() {
    Set<ClassStyle.Hatch> hatches = new HashSet<>();
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE) {
        assertTrue(hatches.add(ClassStyle.of(c).hatch()), c + " shares its hatch");
      }
    }
    ClassStyle undecided = ClassStyle.of(DieClass.UNCLEAR, Optional.of(UnclearReason.UNDECIDED));
    assertTrue(hatches.add(undecided.hatch()), "undecided looks like another class");
    assertEquals(
        ClassStyle.of(DieClass.UNCLEAR),
        ClassStyle.of(DieClass.UNCLEAR, Optional.of(UnclearReason.EMPTY)));
  }

  @Test
  void reducedPhoto_isTheMeanOfItsPixels() {
    BufferedImage photo = new BufferedImage(2400, 4, BufferedImage.TYPE_INT_RGB);
    photo.setRGB(0, 0, 0x040810);
    photo.setRGB(1, 1, 0x0C0018);
    ReducedPhoto half = ReducedPhoto.of(new ImageSource(photo), 1200);
    assertEquals(0.5, half.scale());
    assertEquals(1200, half.image().getWidth());
    assertEquals(0x04020A, half.image().getRGB(0, 0) & 0xFFFFFF);
    assertEquals(0, half.image().getRGB(1, 0) & 0xFFFFFF);
    ReducedPhoto whole = ReducedPhoto.of(new ImageSource(photo), 2400);
    assertNotEquals(0, whole.image().getRGB(1, 1) & 0xFFFFFF);
  }

  @Test
  void labelOfARing_standsInItsBody_notInItsHole() {
    Outline ring =
        new Outline(
            List.of(new Point(0, 0), new Point(100, 0), new Point(100, 80), new Point(0, 80)),
            List.of(
                List.of(
                    new Point(10, 10), new Point(70, 10), new Point(70, 70), new Point(10, 70))));
    LabelSpot spot = LabelSpot.in(ring);
    assertTrue(spot.x() > 70, "the broad side is on the right: " + spot);
    assertEquals(15, spot.radius(), 3);
  }

  @Test
  void labelOfAnOutlineWithoutInside_isStillPlaced() {
    List<Point> line = List.of(new Point(0, 0), new Point(10, 0), new Point(5, 0));
    assertEquals(5, LabelSpot.in(new Outline(line, List.of())).x(), 1e-9);
    List<Point> bow =
        List.of(new Point(0, 0), new Point(10, 10), new Point(10, 0), new Point(0, 10));
    LabelSpot spot = LabelSpot.in(new Outline(bow, List.of()));
    assertTrue(spot.x() >= 0 && spot.x() <= 10 && spot.y() >= 0 && spot.y() <= 10);
  }
}
