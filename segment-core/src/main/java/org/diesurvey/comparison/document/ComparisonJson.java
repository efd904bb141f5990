package org.diesurvey.comparison.document;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** The written form of a comparison; its schema is {@code comparison.schema.json} beside it. */
@Supported
public final class ComparisonJson {
  private static final ObjectMapper JSON = new ObjectMapper();

  private ComparisonJson() {}

  /**
   * As UTF-8 text with a line end.
   *
   * @param created date to be written; empty for none
   */
  public static String write(Comparison c, Optional<Instant> created) {
    ObjectNode root = JSON.createObjectNode();
    root.put("format", Comparison.FORMAT);
    root.put("format_version", Comparison.FORMAT_VERSION);
    created.ifPresent(i -> root.put("created", i.truncatedTo(ChronoUnit.SECONDS).toString()));
    root.put("software_version", c.softwareVersion());
    root.put("unit", c.unit().symbol());
    root.put(
        "frame",
        "die frame of the first die: origin at its lower left corner, x right, y up, in the unit"
            + " above");
    root.set("first", die(c.a()));
    root.set("second", die(c.b()));
    root.set("registration", registration(c.registration()));
    ArrayNode changes = root.putArray("changes");
    c.changes().forEach(x -> changes.add(change(x, c.unit())));
    ArrayNode matches = root.putArray("regions");
    c.matches().forEach(m -> matches.add(match(m)));
    ArrayNode totals = root.putArray("totals");
    c.totals().forEach(t -> totals.add(total(t)));
    ArrayNode estimates = root.putArray("estimates");
    c.estimates().forEach(e -> estimates.add(estimate(e)));
    root.set("difference", difference(c.difference()));
    ArrayNode notices = root.putArray("notices");
    for (Notice n : c.notices()) {
      notices.addObject().put("id", n.id()).put("sentence", n.sentence()).put("remedy", n.remedy());
    }
    try {
      DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
      lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
      return JSON.writer(lines).writeValueAsString(root) + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static ObjectNode die(ComparedDie d) {
    ObjectNode n = JSON.createObjectNode();
    n.put("file_name", d.fileName());
    n.put("photo_sha256", d.photoSha256());
    n.put("die_number", d.dieNumber());
    n.put("model", d.model());
    n.put("model_sha256", d.modelSha256());
    d.scale()
        .ifPresent(
            s -> {
              n.set("um_per_px", measured(s.umPerPx()));
              n.put("scale_origin", s.note());
            });
    d.widthMm().ifPresent(m -> n.set("width_mm", measured(m)));
    d.heightMm().ifPresent(m -> n.set("height_mm", measured(m)));
    n.put("whole_die", d.wholeDie());
    n.put("rotation_deg", rounded(d.rotationDeg()));
    return n;
  }

  private static ObjectNode registration(Registration r) {
    ObjectNode n = JSON.createObjectNode();
    n.put("mirrored", r.orientation().mirrored());
    n.put("orientation", r.orientation().label());
    PlaneTransform t = r.aToB();
    ArrayNode map = n.putArray("first_to_second");
    map.addArray().add(exact(t.a())).add(exact(t.b())).add(rounded(t.c()));
    map.addArray().add(exact(t.d())).add(exact(t.e())).add(rounded(t.f()));
    n.put("rotation_deg", rounded(r.parts().rotationDeg()));
    n.set("scale_ratio", measured(r.parts().scaleRatio()));
    n.put("scale_conflict", r.parts().scaleConflict());
    n.put("shear_percent", rounded(r.parts().shearPercent()));
    n.put("residual", rounded(r.fit().residual()));
    n.put("standard_uncertainty", rounded(r.fit().uncertainty()));
    n.put("places", r.fit().places());
    n.put("agreeing", r.fit().agreeing());
    n.put("agreeing_share", rounded(r.fit().commonShare()));
    n.put("method", r.method());
    ArrayNode tried = n.putArray("tried");
    for (Registration.Trial x : r.tried()) {
      ObjectNode o = tried.addObject();
      o.put("orientation", x.orientation().label());
      o.put("score", rounded(x.score()));
      o.put("scale_ratio", rounded(x.scaleRatio()));
      x.sentence().ifPresent(s -> o.put("sentence", s));
    }
    return n;
  }

  private static ObjectNode change(Change c, LengthUnit unit) {
    ObjectNode n = JSON.createObjectNode();
    n.put("id", c.id());
    n.put("kind", c.kind().id());
    c.a().dieClass().ifPresent(x -> n.put("first_class", x.label()));
    c.b().dieClass().ifPresent(x -> n.put("second_class", x.label()));
    n.set("first_regions", texts(c.a().regions()));
    n.set("second_regions", texts(c.b().regions()));
    ObjectNode size = measured(c.size().amount());
    size.put("measure", c.size().measure().id());
    size.put(
        "unit",
        c.size().measure() == Change.Measure.DISTANCE ? unit.symbol() : unit.symbol() + "2");
    n.set("size", size);
    n.put("significance", rounded(c.size().significance()));
    n.put("confidence", rounded(c.confidence()));
    c.moved()
        .shift()
        .ifPresent(
            s -> {
              ObjectNode o = n.putObject("shift");
              o.set("right", measured(s.right()));
              o.set("up", measured(s.up()));
            });
    if (!c.moved().sides().isEmpty()) {
      ArrayNode sides = n.putArray("sides");
      for (Change.SideMove s : c.moved().sides()) {
        ObjectNode o = sides.addObject();
        o.put("side", s.side().word());
        o.set("outward", measured(s.outward()));
      }
    }
    c.similarity().ifPresent(s -> n.put("similarity", rounded(s)));
    n.put("sentence", c.sentence());
    n.set("first_outlines", outlines(c.a().outlines()));
    n.set("second_outlines", outlines(c.b().outlines()));
    return n;
  }

  private static ArrayNode outlines(List<Outline> all) {
    ArrayNode out = JSON.createArrayNode();
    for (Outline o : all) {
      ObjectNode n = out.addObject();
      n.set("shell", ring(o.shell()));
      ArrayNode holes = n.putArray("holes");
      o.holes().forEach(h -> holes.add(ring(h)));
    }
    return out;
  }

  private static ArrayNode ring(List<Point> ring) {
    ArrayNode out = JSON.createArrayNode();
    ring.forEach(p -> out.addArray().add(p.x()).add(p.y()));
    return out;
  }

  private static ObjectNode match(RegionMatch m) {
    ObjectNode n = JSON.createObjectNode();
    n.set("first", texts(m.regionsA()));
    n.set("second", texts(m.regionsB()));
    n.put("verdict", m.verdict().id());
    m.change().ifPresent(c -> n.put("change", c));
    n.put("overlap", rounded(m.overlap()));
    m.similarity().ifPresent(s -> n.put("similarity", rounded(s)));
    if (!m.note().isEmpty()) {
      n.put("note", m.note());
    }
    return n;
  }

  private static ObjectNode total(QuantityShift t) {
    ObjectNode n = JSON.createObjectNode();
    n.put("name", t.name());
    n.put("unit", t.unit());
    t.a().ifPresent(m -> n.set("first", measured(m)));
    t.b().ifPresent(m -> n.set("second", measured(m)));
    t.difference().ifPresent(m -> n.set("difference", measured(m)));
    return n;
  }

  private static ObjectNode estimate(EstimateShift e) {
    ObjectNode n = JSON.createObjectNode();
    n.put("name", e.name());
    n.put("unit", e.unit());
    e.a().ifPresent(s -> n.set("first", span(s)));
    e.b().ifPresent(s -> n.set("second", span(s)));
    return n;
  }

  private static ObjectNode span(EstimateShift.Span s) {
    return JSON.createObjectNode()
        .put("low", Math.rint(s.low()))
        .put("median", Math.rint(s.median()))
        .put("high", Math.rint(s.high()));
  }

  private static ObjectNode difference(DifferenceSummary d) {
    return JSON.createObjectNode()
        .put("tile", rounded(d.tile()))
        .put("same_share", rounded(d.same()))
        .put("different_share", rounded(d.different()))
        .put("not_judged_share", rounded(d.notJudged()))
        .put("not_common_share", rounded(d.notCommon()))
        .put("typical_similarity", rounded(d.typicalSimilarity()))
        .put("threshold", rounded(d.threshold()));
  }

  private static ArrayNode texts(List<String> all) {
    ArrayNode out = JSON.createArrayNode();
    all.forEach(out::add);
    return out;
  }

  private static ObjectNode measured(Measured m) {
    return JSON.createObjectNode()
        .put("value", exact(m.value()))
        .put("standard_uncertainty", exact(m.standardUncertainty()));
  }

  private static double rounded(double v) {
    return Math.rint(v * 1e4) / 1e4 + 0.0;
  }

  private static double exact(double v) {
    return Math.rint(v * 1e8) / 1e8 + 0.0;
  }
}
