package org.diesurvey.examples;

import java.util.List;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** Regions, and those whose class is in doubt. */
final class RegionsAndDoubt {
  private RegionsAndDoubt() {}

  static List<SurveyRegion> run(Survey survey) {
    // begin
    List<SurveyRegion> doubtful =
        survey.regions().stream().filter(r -> r.confidence() < 0.5).toList();
    survey.notices().forEach(n -> System.out.println(n.sentence() + " " + n.remedy()));
    return doubtful;
    // end
  }
}
