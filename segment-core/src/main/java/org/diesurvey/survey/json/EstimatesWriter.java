package org.diesurvey.survey.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.List;
import org.diesurvey.estimates.BudgetLine;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.Estimate;
import org.diesurvey.estimates.EstimateNotice;
import org.diesurvey.estimates.NodeLikelihood;
import org.diesurvey.estimates.RegionEstimate;

/** Writes the estimates of a survey; amounts keep three significant digits. */
final class EstimatesWriter {
  private static final int DIGITS = 3;

  private final JsonGenerator out;

  EstimatesWriter(JsonGenerator out) {
    this.out = out;
  }

  void write(DieEstimates e) throws IOException {
    out.writeObjectFieldStart("estimates");
    out.writeStringField("density_table", e.table());
    out.writeStringField("density_table_version", e.tableVersion());
    number("coverage", Rounding.decimals(e.coverage(), 4));
    out.writeNumberField("draws", e.draws());
    out.writeArrayFieldStart("totals");
    for (DieTotal t : e.totals()) {
      out.writeStartObject();
      out.writeStringField("amount_of", t.kind().label());
      amount(t.amount());
      out.writeStringField("origin", t.origin());
      out.writeArrayFieldStart("budget");
      for (BudgetLine b : t.budget()) {
        out.writeStartObject();
        out.writeStringField("factor", b.factor());
        number("relative_standard_uncertainty", Rounding.significant(b.relative(), DIGITS));
        number("share_of_variance", Rounding.decimals(b.share(), 4));
        out.writeStringField("remedy", b.remedy());
        out.writeEndObject();
      }
      out.writeEndArray();
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeArrayFieldStart("regions");
    for (RegionEstimate r : e.regions()) {
      out.writeStartObject();
      out.writeStringField("id", r.id());
      out.writeStringField("amount_of", r.kind().label());
      amount(r.amount());
      out.writeStringField("origin", r.origin());
      texts("organisation_hints", r.hints());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeArrayFieldStart("nodes");
    for (NodeLikelihood n : e.nodes()) {
      out.writeStartObject();
      number("node_nm", Rounding.significant(n.nodeNm(), 6));
      number("likelihood", Rounding.decimals(n.likelihood(), 4));
      out.writeEndObject();
    }
    out.writeEndArray();
    texts("node_evidence", e.nodeEvidence());
    out.writeArrayFieldStart("notices");
    for (EstimateNotice n : e.notices()) {
      out.writeStartObject();
      out.writeStringField("id", n.id());
      out.writeStringField("sentence", n.sentence());
      out.writeStringField("remedy", n.remedy());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private void amount(Estimate e) throws IOException {
    number("value", Rounding.significant(e.value(), DIGITS));
    number("low", Rounding.significant(e.low(), DIGITS));
    number("high", Rounding.significant(e.high(), DIGITS));
  }

  private void texts(String name, List<String> values) throws IOException {
    out.writeArrayFieldStart(name);
    for (String v : values) {
      out.writeString(v);
    }
    out.writeEndArray();
  }

  private void number(String name, BigDecimal value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(value);
  }
}
