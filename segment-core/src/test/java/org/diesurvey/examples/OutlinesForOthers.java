package org.diesurvey.examples;

import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.geojson.GeoJsonWriter;
import org.diesurvey.survey.Survey;

/** Outlines for other programs. */
final class OutlinesForOthers {
  private OutlinesForOthers() {}

  static String run(Survey survey) {
    // begin
    OutlineSet outlines = SurveyOutlines.of(survey);
    return GeoJsonWriter.text(outlines);
    // end
  }
}
