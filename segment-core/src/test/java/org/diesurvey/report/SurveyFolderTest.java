package org.diesurvey.report;

import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class SurveyFolderTest {
  @Test
  void look() throws Exception {
    OpenDie die = OpenDie.named("o1_sky");
    var photo = die.photo();
    for (boolean scaled : new boolean[] {true, false, true, true}) {
      var survey = die.survey(scaled);
      long t = System.nanoTime();
      SurveyFolder.write(
          survey,
          photo,
          Path.of("/tmp/report/out-" + scaled),
          Instant.parse("2026-01-31T12:00:00Z"));
      System.err.println("ms " + (System.nanoTime() - t) / 1e6);
      t = System.nanoTime();
      var o = OverlayPicture.of(survey, photo);
      System.err.println("overlay ms " + (System.nanoTime() - t) / 1e6);
      t = System.nanoTime();
      MapFiles.writePicture(o, Path.of("/tmp/report/x.png"));
      System.err.println("png ms " + (System.nanoTime() - t) / 1e6);
      t = System.nanoTime();
      MapFiles.write(survey, Path.of("/tmp/report/x.png"), Path.of("/tmp/report/y.png"));
      System.err.println("maps ms " + (System.nanoTime() - t) / 1e6);
    }
  }
}
