package org.diesurvey.survey.json;

import java.util.Set;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BudgetLine;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.Estimate;
import org.diesurvey.estimates.EstimateNotice;
import org.diesurvey.estimates.NodeLikelihood;
import org.diesurvey.estimates.RegionEstimate;

/** Reads the estimates of a survey document. */
final class EstimatesReader {
  private static final int MOST_DRAWS = 1_000_000_000;

  private EstimatesReader() {}

  static DieEstimates read(JsonMember m) {
    m.onlyMembers(
        Set.of(
            "density_table",
            "density_table_version",
            "coverage",
            "draws",
            "totals",
            "regions",
            "nodes",
            "node_evidence",
            "notices"));
    return new DieEstimates(
        m.member("density_table").text(),
        m.member("density_table_version").text(),
        m.member("coverage").share(),
        (int) m.member("draws").whole(0, MOST_DRAWS),
        m.member("totals").list(EstimatesReader::total),
        m.member("regions").list(EstimatesReader::region),
        m.member("nodes").list(EstimatesReader::node),
        m.member("node_evidence").list(JsonMember::text),
        m.member("notices").list(EstimatesReader::notice));
  }

  private static DieTotal total(JsonMember m) {
    m.onlyMembers(Set.of("amount_of", "value", "low", "high", "origin", "budget"));
    return new DieTotal(
        kind(m.member("amount_of")),
        amount(m),
        m.member("origin").text(),
        m.member("budget").list(EstimatesReader::line));
  }

  private static BudgetLine line(JsonMember m) {
    m.onlyMembers(Set.of("factor", "relative_standard_uncertainty", "share_of_variance", "remedy"));
    return new BudgetLine(
        m.member("factor").text(),
        m.member("relative_standard_uncertainty").amount(),
        m.member("share_of_variance").share(),
        m.member("remedy").text());
  }

  private static RegionEstimate region(JsonMember m) {
    m.onlyMembers(
        Set.of("id", "amount_of", "value", "low", "high", "origin", "organisation_hints"));
    return new RegionEstimate(
        m.member("id").text(),
        kind(m.member("amount_of")),
        amount(m),
        m.member("origin").text(),
        m.member("organisation_hints").list(JsonMember::text));
  }

  private static NodeLikelihood node(JsonMember m) {
    m.onlyMembers(Set.of("node_nm", "likelihood"));
    return new NodeLikelihood(m.member("node_nm").number(1, 1e5), m.member("likelihood").share());
  }

  private static EstimateNotice notice(JsonMember m) {
    m.onlyMembers(Set.of("id", "sentence", "remedy"));
    return new EstimateNotice(
        m.member("id").text(), m.member("sentence").text(), m.member("remedy").text());
  }

  private static Estimate amount(JsonMember m) {
    double low = m.member("low").amount();
    double value = m.member("value").amount();
    double high = m.member("high").amount();
    if (low > value || value > high) {
      throw m.refused("low, value and high must ascend");
    }
    return new Estimate(value, low, high);
  }

  private static AmountKind kind(JsonMember m) {
    for (AmountKind k : AmountKind.values()) {
      if (k.label().equals(m.text())) {
        return k;
      }
    }
    throw m.refused("\"" + m.text() + "\" is nothing that is estimated");
  }
}
