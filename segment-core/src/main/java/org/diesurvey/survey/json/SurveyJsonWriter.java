package org.diesurvey.survey.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.preparation.PreparationStep;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.FinePattern;
import org.diesurvey.survey.MemoryParts;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.PadCounting;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** Writes one survey; the order of members is the order of the statements. */
final class SurveyJsonWriter {
  /** Setting: side of a square of photo pixels that were averaged to one. */
  static final String WORKING_PX = "working_px_in_photo_px";

  private final Survey survey;
  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  SurveyJsonWriter(Survey survey) {
    this.survey = survey;
    try {
      out =
          JsonFactory.builder()
              .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
              .build()
              .createGenerator(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
    lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    out.setPrettyPrinter(lines);
  }

  String document(Optional<Instant> created) {
    try {
      out.writeStartObject();
      out.writeStringField("format", Survey.FORMAT);
      out.writeNumberField("format_version", Survey.FORMAT_VERSION);
      if (created.isPresent()) {
        out.writeStringField("created", created.get().truncatedTo(ChronoUnit.SECONDS).toString());
      }
      software();
      photo();
      out.writeObjectFieldStart("settings");
      out.writeStringField(
          "tile_um",
          Double.toString(Rounding.significant(survey.method().tileUm(), 6).doubleValue()));
      out.writeStringField(WORKING_PX, Integer.toString(survey.method().photoPxPerWorkingPx()));
      out.writeEndObject();
      scale();
      die();
      if (survey.method().nodeNm().isPresent()) {
        number("node_nm", Rounding.significant(survey.method().nodeNm().getAsDouble(), 6));
      }
      number(scaled() ? "tile_um" : "tile_px", Rounding.significant(survey.method().tileUm(), 6));
      preparation(survey.preparation());
      share("damaged_share", survey.preparation().damagedShare());
      out.writeArrayFieldStart("regions");
      for (SurveyRegion r : survey.regions()) {
        region(r);
      }
      out.writeEndArray();
      totals();
      notices();
      if (survey.estimates().isPresent()) {
        new EstimatesWriter(out).write(survey.estimates().get());
      }
      out.writeEndObject();
      out.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text + "\n";
  }

  private boolean scaled() {
    return survey.scale().calibration().isPresent();
  }

  private void software() throws IOException {
    Software s = survey.method().software();
    out.writeObjectFieldStart("software");
    out.writeStringField("name", s.name());
    out.writeStringField("version", s.version());
    out.writeStringField("model", s.model());
    out.writeStringField("model_sha256", s.modelSha256());
    out.writeEndObject();
  }

  private void photo() throws IOException {
    PhotoInfo p = survey.photo();
    out.writeObjectFieldStart("photo");
    out.writeStringField("file_name", p.fileName());
    out.writeStringField("sha256", p.sha256());
    out.writeNumberField("file_bytes", p.fileBytes());
    out.writeStringField("format", p.format());
    out.writeNumberField("width_px", p.widthPx());
    out.writeNumberField("height_px", p.heightPx());
    out.writeNumberField("bits_per_sample", p.bitsPerSample());
    out.writeNumberField("samples_per_pixel", p.samplesPerPixel());
    if (p.taggedScale().isPresent()) {
      out.writeObjectFieldStart("tagged_scale");
      number("um_per_px", Rounding.significant(p.taggedScale().get().umPerPx(), 9));
      out.writeStringField("origin", p.taggedScale().get().origin());
      out.writeEndObject();
    }
    out.writeEndObject();
  }

  private void scale() throws IOException {
    ScaleRecord s = survey.scale();
    out.writeObjectFieldStart("scale");
    if (s.calibration().isPresent()) {
      Calibration c = s.calibration().get();
      number("um_per_px", Rounding.significant(c.umPerPx().value(), 9));
      number(
          "standard_uncertainty_um_per_px",
          Rounding.significant(c.umPerPx().standardUncertainty(), 3));
      out.writeStringField("origin", c.origin().name().toLowerCase(Locale.ROOT));
      out.writeStringField("note", c.note());
    }
    if (s.inferred().isPresent()) {
      ScaleRecord.InferredRange r = s.inferred().get();
      out.writeObjectFieldStart("inferred_range");
      number("low_um_per_px", Rounding.significant(r.lowUmPerPx(), 3));
      number("high_um_per_px", Rounding.significant(r.highUmPerPx(), 3));
      out.writeStringField("evidence", r.evidence());
      out.writeEndObject();
    }
    out.writeEndObject();
  }

  private void die() throws IOException {
    DieFrame d = survey.die();
    out.writeObjectFieldStart("die");
    out.writeBooleanField("edge_found", d.edgeFound());
    out.writeArrayFieldStart("real_edges");
    for (DieSide side : d.realEdges()) {
      out.writeString(side.word());
    }
    out.writeEndArray();
    out.writeFieldName("outline_px");
    ring(d.outlinePx());
    if (d.widthMm().isPresent() && d.heightMm().isPresent()) {
      // From the rounded sides, so that reading and writing again gives the same corners.
      double w = 1000 * Rounding.significant(d.widthMm().get().value(), 6).doubleValue();
      double h = 1000 * Rounding.significant(d.heightMm().get().value(), 6).doubleValue();
      out.writeFieldName("outline_um");
      ring(List.of(new Point(0, 0), new Point(w, 0), new Point(w, h), new Point(0, h)));
    }
    number("rotation_deg", Rounding.decimals(d.rotationDeg(), 4));
    measured("width_mm", d.widthMm());
    measured("height_mm", d.heightMm());
    measured("area_mm2", d.areaMm2());
    number("area_px", Rounding.decimals(d.areaPx(), 2));
    out.writeEndObject();
  }

  private void preparation(Preparation p) throws IOException {
    out.writeObjectFieldStart("preparation");
    out.writeArrayFieldStart("steps");
    for (PreparationStep step : p.steps()) {
      out.writeStartObject();
      out.writeStringField("id", step.kind().id());
      out.writeStringField("sentence", step.sentence());
      out.writeObjectFieldStart("figures");
      for (Map.Entry<String, Double> f : step.figures().entrySet()) {
        number(f.getKey(), Rounding.significant(f.getValue(), 6));
      }
      out.writeEndObject();
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeNumberField("dies_in_photo", p.diesInPhoto());
    out.writeNumberField("die_number", p.dieNumber());
    if (p.flatField().isPresent()) {
      out.writeObjectFieldStart("flat_field");
      out.writeStringField("file_name", p.flatField().get().fileName());
      out.writeStringField("sha256", p.flatField().get().sha256());
      out.writeEndObject();
    }
    out.writeArrayFieldStart("damage");
    for (Preparation.DamageShare d : p.damage()) {
      out.writeStartObject();
      out.writeStringField("kind", d.kind().id());
      out.writeNumberField("places", d.places());
      share("share_of_die", d.shareOfDie());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private void region(SurveyRegion r) throws IOException {
    out.writeStartObject();
    out.writeStringField("id", r.id());
    out.writeStringField("class", r.dieClass().label());
    if (r.verdict().reason().isPresent()) {
      out.writeStringField("reason", r.verdict().reason().get().label());
    }
    measured("area_mm2", r.areaMm2());
    number("area_px", Rounding.decimals(r.area().px2(), 2));
    share("share_of_die", r.area().shareOfDie());
    number("confidence", Rounding.decimals(r.confidence(), 4));
    out.writeObjectFieldStart("probabilities");
    for (SurveyMembers.ClassMember m : SurveyMembers.ON_DIE) {
      Double p = r.verdict().probabilities().get(m.dieClass());
      if (p != null) {
        number(m.name(), Rounding.decimals(p, 4));
      }
    }
    out.writeEndObject();
    periods(r);
    finePattern(r);
    if (r.bondPads().isPresent()) {
      bondPads(r.bondPads().get());
    }
    measured("array_area_mm2", r.area().memoryParts().map(MemoryParts::arrayMm2));
    measured("periphery_area_mm2", r.area().memoryParts().map(MemoryParts::peripheryMm2));
    texts("neighbours", r.neighbours());
    out.writeFieldName("outline_px");
    outline(r.inPhoto().outline());
    if (r.inDie().isPresent()) {
      out.writeFieldName("outline_um");
      outline(r.inDie().get().outline());
    }
    outlines("bit_cell_arrays_px", r.inPhoto().bitCellArrays());
    outlines("bit_cell_arrays_um", r.inDie().map(RegionShape::bitCellArrays).orElse(List.of()));
    out.writeEndObject();
  }

  private void bondPads(BondPadCount b) throws IOException {
    out.writeNumberField("bond_pads", b.pads());
    if (b.counting().isPresent()) {
      PadCounting c = b.counting().get();
      number("standard_uncertainty_bond_pads", Rounding.significant(c.standardUncertainty(), 2));
      out.writeStringField("bond_pads_counted_as", c.countedAs());
      if (c.pitchUm().isPresent()) {
        number("bond_pad_pitch_um", Rounding.significant(c.pitchUm().getAsDouble(), 4));
      }
    }
  }

  private void periods(SurveyRegion r) throws IOException {
    String length = scaled() ? "length_um" : "length_px";
    out.writeArrayFieldStart("periods");
    for (Period p : r.periods()) {
      out.writeStartObject();
      number(length, Rounding.significant(p.lengthUm().value(), 6));
      number(
          "standard_uncertainty_" + length,
          Rounding.significant(p.lengthUm().standardUncertainty(), 3));
      number("direction_deg", Rounding.decimals(p.directionDeg(), 2));
      number("strength", Rounding.decimals(p.strength(), 4));
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private void finePattern(SurveyRegion r) throws IOException {
    if (r.finePattern().isEmpty()) {
      return;
    }
    FinePattern f = r.finePattern().get();
    out.writeObjectFieldStart("fine_pattern");
    out.writeStringField("verdict", f.verdict().label());
    if (f.finestUm().isPresent()) {
      number("finest_period_um", Rounding.significant(f.finestUm().getAsDouble(), 4));
    }
    number("finest_period_px", Rounding.significant(f.finestPx(), 4));
    out.writeEndObject();
  }

  private void totals() throws IOException {
    out.writeArrayFieldStart("class_totals");
    for (ClassTotal t : survey.totals()) {
      out.writeStartObject();
      out.writeStringField("class", t.dieClass().label());
      if (t.reason().isPresent()) {
        out.writeStringField("reason", t.reason().get().label());
      }
      out.writeNumberField("regions", t.regions());
      measured("area_mm2", t.areaMm2());
      share("share_of_die", t.shareOfDie());
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private void notices() throws IOException {
    out.writeArrayFieldStart("notices");
    for (Notice n : survey.notices()) {
      out.writeStartObject();
      out.writeStringField("id", n.id());
      out.writeStringField("sentence", n.sentence());
      out.writeStringField("remedy", n.remedy());
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private void outlines(String name, List<Outline> outlines) throws IOException {
    out.writeArrayFieldStart(name);
    for (Outline o : outlines) {
      outline(o);
    }
    out.writeEndArray();
  }

  private void outline(Outline o) throws IOException {
    out.writeStartObject();
    out.writeFieldName("shell");
    ring(o.shell());
    out.writeArrayFieldStart("holes");
    for (List<Point> hole : o.holes()) {
      ring(hole);
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private void ring(List<Point> ring) throws IOException {
    out.writeStartArray();
    for (Point p : ring) {
      out.writeStartArray();
      out.writeNumber(Rounding.decimals(p.x(), 2));
      out.writeNumber(Rounding.decimals(p.y(), 2));
      out.writeEndArray();
    }
    out.writeEndArray();
  }

  private void measured(String name, Optional<Measured> value) throws IOException {
    if (value.isPresent()) {
      number(name, Rounding.significant(value.get().value(), 6));
      number(
          "standard_uncertainty_" + name,
          Rounding.significant(value.get().standardUncertainty(), 3));
    }
  }

  private void share(String name, double value) throws IOException {
    number(name, Rounding.decimals(value, 6));
  }

  private void number(String name, BigDecimal value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(value);
  }

  private void texts(String name, List<String> values) throws IOException {
    out.writeArrayFieldStart(name);
    for (String v : values) {
      out.writeString(v);
    }
    out.writeEndArray();
  }
}
