package org.diesurvey.survey.json;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.BudgetLine;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.estimates.Estimate;
import org.diesurvey.estimates.EstimateNotice;
import org.diesurvey.estimates.NodeLikelihood;
import org.diesurvey.estimates.RegionEstimate;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.Test;

class EstimatesJsonTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Every member with something in it, rounded as documents round. */
  private static DieEstimates estimates() {
    return new DieEstimates(
        "table",
        "1 with lab.csv",
        0.95,
        40000,
        List.of(
            new DieTotal(
                AmountKind.BITS,
                new Estimate(33100, 20000, 61200),
                "area",
                List.of(new BudgetLine("scale: pitch", 0.04, 1, "Measure it.")))),
        List.of(
            new RegionEstimate(
                "MEM1",
                AmountKind.BITS,
                new Estimate(33100, 20000, 61200),
                "area",
                List.of("32 Kibit (power of two)"))),
        List.of(new NodeLikelihood(130, 0.75)),
        List.of("row period of 5.44 \u00b5m in LOG1"),
        List.of(new EstimateNotice("no-gates", "Gates are not estimated.", "State the node.")));
  }

  private static byte[] written() {
    return SurveyJson.write(SmallSurvey.of(true).withEstimates(estimates()), Optional.empty());
  }

  private static Schema schema() {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(SurveyJson.schema());
  }

  @Test
  void estimates_areWrittenAndReadBack_andSatisfyTheSchema() {
    byte[] first = written();
    Survey read = SurveyJson.parse(first, "test").survey();
    assertEquals(Optional.of(estimates()), read.estimates());
    assertArrayEquals(first, SurveyJson.write(read, Optional.empty()));
    String text = new String(first, StandardCharsets.UTF_8);
    assertEquals("[]", schema().validate(text, InputFormat.JSON).toString());
  }

  @Test
  void everyMemberRemoved_isRefusedBySchemaAndReaderAlike() throws Exception {
    for (String path :
        List.of(
            "/estimates",
            "/estimates/totals/0",
            "/estimates/totals/0/budget/0",
            "/estimates/regions/0",
            "/estimates/nodes/0",
            "/estimates/notices/0")) {
      JsonNode whole = MAPPER.readTree(written());
      for (Iterator<String> it = whole.at(path).fieldNames(); it.hasNext(); ) {
        String name = it.next();
        JsonNode less = whole.deepCopy();
        ((ObjectNode) less.at(path)).remove(name);
        assertTrue(!schema().validate(less.toString(), InputFormat.JSON).isEmpty(), name);
        refused(less, name);
      }
      JsonNode more = whole.deepCopy();
      ((ObjectNode) more.at(path)).put("colour", "red");
      refused(more, "colour");
    }
  }

  @Test
  void intervalOutOfOrder_isRefused() throws Exception {
    JsonNode whole = MAPPER.readTree(written());
    ((ObjectNode) whole.at("/estimates/totals/0")).put("low", 40000);
    refused(whole, "must ascend");
  }

  private static void refused(JsonNode document, String expected) {
    byte[] bytes = document.toString().getBytes(StandardCharsets.UTF_8);
    DieInputException e =
        assertThrows(DieInputException.class, () -> SurveyJson.parse(bytes, "x.json"));
    assertTrue(e.getMessage().contains(expected), e.getMessage());
  }
}
