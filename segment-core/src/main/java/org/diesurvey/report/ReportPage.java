package org.diesurvey.report;

import java.awt.image.BufferedImage;
import java.time.Instant;
import org.diesurvey.survey.Survey;

final class ReportPage {
  private ReportPage() {}

  static String html(Survey survey, BufferedImage overlay, Instant created) {
    return "";
  }
}
