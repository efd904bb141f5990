package org.diesurvey.examples;

import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.survey.Survey;

/** Bits and gates, which are estimates, with their 95 % intervals. */
final class BitsAndGates {
  private BitsAndGates() {}

  static int run(Survey survey) {
    // begin
    DieEstimates estimates = survey.estimates().orElseThrow();
    for (DieTotal t : estimates.totals()) {
      System.out.println(t.kind() + ": " + t.amount());
    }
    return estimates.totals().size();
    // end
  }
}
