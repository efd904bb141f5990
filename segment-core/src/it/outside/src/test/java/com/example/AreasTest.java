package com.example;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.junit.jupiter.api.Test;

/** Pixels of one's own to areas, with the library as it is installed. */
class AreasTest {
  private static final double UM_PER_PX = 0.8;

  /** A grey die of 720 by 560 px on black, with a lattice of cells in its middle. */
  private static BufferedImage pixels() {
    BufferedImage image = new BufferedImage(800, 640, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(120, 120, 120));
    g.fillRect(40, 40, 720, 560);
    g.setColor(new Color(190, 190, 190));
    for (int x = 240; x < 560; x += 5) {
      for (int y = 200; y < 440; y += 4) {
        g.fillRect(x, y, 3, 2);
      }
    }
    g.dispose();
    return image;
  }

  @Test
  void aDieInMemory_becomesASurvey() {
    Survey survey =
        DieSegmenter.withDefaults()
            .segment(DiePhoto.of("die", pixels()), Calibration.ofPixelPitch(UM_PER_PX, 0.002));
    double width = survey.die().widthMm().orElseThrow().value();
    assertEquals(720 * UM_PER_PX / 1000, width, 0.004, "width of the die, mm");
    assertTrue(!survey.regions().isEmpty());
    Survey read = SurveyJson.parse(SurveyJson.write(survey, Optional.empty()), "die").survey();
    assertEquals(
        survey.regions().stream().map(r -> r.id() + r.dieClass()).toList(),
        read.regions().stream().map(r -> r.id() + r.dieClass()).toList());
  }
}
