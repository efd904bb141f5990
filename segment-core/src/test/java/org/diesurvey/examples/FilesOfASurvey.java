package org.diesurvey.examples;

import java.nio.file.Path;
import java.time.Instant;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/** The folder of files that the command line writes, and the survey read back. */
final class FilesOfASurvey {
  private FilesOfASurvey() {}

  static Survey run(Survey survey, DiePhoto photo, Path folder) {
    // begin
    SurveyFolder.write(survey, photo.pixels(), folder, Instant.now());
    return SurveyJson.read(folder.resolve(SurveyFolder.SURVEY));
    // end
  }
}
