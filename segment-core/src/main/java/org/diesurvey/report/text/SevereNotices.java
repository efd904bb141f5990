package org.diesurvey.report.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.SevereNotice;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** What may make every figure of a survey worthless: said in full wherever the survey is shown. */
public final class SevereNotices {
  /** Confidence under which a class is more likely wrong than right. */
  private static final double DOUBTFUL = 0.5;

  private static final int MOST_NAMED = 12;

  private SevereNotices() {}

  /** Those of the survey's notices, in its order. */
  public static List<Notice> of(Survey survey) {
    return survey.notices().stream().filter(SevereNotice::holds).toList();
  }

  /** The regions whose class is in doubt, in a sentence; empty where there are none. */
  public static Optional<String> doubt(Survey survey) {
    List<String> ids =
        survey.regions().stream()
            .filter(r -> r.dieClass() != DieClass.UNCLEAR && r.confidence() < DOUBTFUL)
            .map(SurveyRegion::id)
            .toList();
    if (ids.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        (ids.size() == 1 ? "One region has" : ids.size() + " regions have")
            + " a confidence below 50\u00a0%, so the class is more likely wrong than right: "
            + DieWords.listed(ids, MOST_NAMED)
            + ". Look before you use the figures.");
  }

  /** All of it as plain sentences. */
  public static List<String> sentences(Survey survey) {
    List<String> out = new ArrayList<>();
    of(survey).forEach(n -> out.add(n.sentence() + " " + n.remedy()));
    doubt(survey).ifPresent(out::add);
    return out;
  }
}
