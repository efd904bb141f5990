package org.diesurvey.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Optional;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.quantity.Measured;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Survey;

/**
 * The outcome of one photograph as one line of JSON (RFC 8259), ASCII only, so that no terminal or
 * pipe can spoil it. Members: photo, status (surveyed, rejected, failed); if surveyed folder,
 * survey, report, scale, die, totals, estimates, notices, seconds; else reason and message.
 */
final class OutcomeLine {
  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();

  private OutcomeLine() {}

  static String of(PhotoOutcome outcome) {
    ObjectNode root = MAPPER.createObjectNode();
    root.put("photo", outcome.photo().toString());
    if (outcome instanceof PhotoOutcome.Surveyed s) {
      surveyed(root, s);
    } else if (outcome instanceof PhotoOutcome.Rejected r) {
      root.put("status", "rejected");
      root.put("reason", r.reason().reason().name());
      root.put("message", r.sentence());
    } else if (outcome instanceof PhotoOutcome.Failed f) {
      root.put("status", "failed");
      root.put("reason", "PROGRAM_FAULT");
      root.put("message", f.fault().toString());
    }
    try {
      return MAPPER.writeValueAsString(root);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree of plain values could not be written", e);
    }
  }

  private static void surveyed(ObjectNode root, PhotoOutcome.Surveyed s) {
    Survey survey = s.survey();
    root.put("status", "surveyed");
    root.put("folder", s.folder().toString());
    root.put("survey", s.folder().resolve(SurveyFolder.SURVEY).toString());
    root.put("report", s.folder().resolve(SurveyFolder.REPORT).toString());
    survey
        .scale()
        .calibration()
        .ifPresentOrElse(
            c -> {
              ObjectNode scale = root.putObject("scale");
              scale.put("um_per_px", c.umPerPx().value());
              scale.put("standard_uncertainty_um_per_px", c.umPerPx().standardUncertainty());
              scale.put("origin", c.origin().name());
            },
            () -> root.putNull("scale"));
    ObjectNode die = root.putObject("die");
    die.put("edge_found", survey.die().edgeFound());
    measured(die, "width_mm", survey.die().widthMm());
    measured(die, "height_mm", survey.die().heightMm());
    measured(die, "area_mm2", survey.die().areaMm2());
    ArrayNode totals = root.putArray("totals");
    for (ClassTotal t : survey.totals()) {
      ObjectNode total = totals.addObject();
      total.put("class", t.dieClass().label());
      t.reason().ifPresent(r -> total.put("reason", r.label()));
      total.put("regions", t.regions());
      measured(total, "area_mm2", t.areaMm2());
      total.put("share_of_die", t.shareOfDie());
    }
    ArrayNode estimates = root.putArray("estimates");
    survey.estimates().ifPresent(e -> e.totals().forEach(t -> estimate(estimates.addObject(), t)));
    ArrayNode notices = root.putArray("notices");
    for (Notice n : survey.notices()) {
      ObjectNode notice = notices.addObject();
      notice.put("id", n.id());
      notice.put("sentence", n.sentence());
      notice.put("remedy", n.remedy());
    }
    ObjectNode seconds = root.putObject("seconds");
    s.seconds().forEach((stage, v) -> seconds.put(stage, Math.rint(v * 1000) / 1000));
  }

  private static void estimate(ObjectNode to, DieTotal t) {
    to.put("amount_of", t.kind().label());
    to.put("value", t.amount().value());
    to.put("low_95", t.amount().low());
    to.put("high_95", t.amount().high());
    to.put("origin", t.origin());
  }

  private static void measured(ObjectNode to, String name, Optional<Measured> m) {
    if (m.isEmpty()) {
      to.putNull(name);
      return;
    }
    ObjectNode node = to.putObject(name);
    node.put("value", m.get().value());
    node.put("standard_uncertainty", m.get().standardUncertainty());
  }
}
