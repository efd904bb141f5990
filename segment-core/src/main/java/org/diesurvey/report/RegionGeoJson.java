package org.diesurvey.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The regions as GeoJSON (RFC 7946). The RFC wants longitude and latitude (section 4) and allows
 * other frames where all sides agree; here coordinates are planar: um in the die frame (y up), or
 * px in the photo's frame (y down) without a scale. The foreign member {@code coordinate_frame}
 * (section 6.1) says so in every file. Rings are closed; outer rings run counter-clockwise and
 * inner ones clockwise in axes drawn x right, y up (section 3.1.6).
 */
final class RegionGeoJson {
  private final Survey survey;
  private final boolean scaled;
  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  private RegionGeoJson(Survey survey) throws IOException {
    this.survey = survey;
    scaled = survey.scale().calibration().isPresent();
    out =
        JsonFactory.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build()
            .createGenerator(text);
    DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
    lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    out.setPrettyPrinter(lines);
  }

  static String text(Survey survey) {
    try {
      RegionGeoJson writer = new RegionGeoJson(survey);
      writer.collection();
      return writer.text + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void collection() throws IOException {
    out.writeStartObject();
    out.writeStringField("type", "FeatureCollection");
    out.writeObjectFieldStart("coordinate_frame");
    out.writeStringField("unit", scaled ? "um" : "px");
    out.writeStringField("y_axis", scaled ? "up" : "down");
    out.writeStringField(
        "description",
        scaled
            ? "Planar micrometres, not longitude and latitude: origin at the lower left corner of"
                + " the die (without a die edge: of the upright rectangle around the photograph),"
                + " x right, y up, the die's rotation taken out. RFC 7946 expects WGS 84;"
                + " read this file as planar by agreement."
            : "Planar pixels of the photograph, not longitude and latitude: origin at the outer"
                + " corner of the first pixel, x right, y down, since the photograph has no scale."
                + " RFC 7946 expects WGS 84; read this file as planar by agreement.");
    out.writeEndObject();
    out.writeObjectFieldStart("photo");
    out.writeStringField("file_name", survey.photo().fileName());
    out.writeStringField("sha256", survey.photo().sha256());
    out.writeEndObject();
    out.writeArrayFieldStart("features");
    for (SurveyRegion r : survey.regions()) {
      region(r);
    }
    out.writeEndArray();
    out.writeEndObject();
    out.close();
  }

  private void region(SurveyRegion r) throws IOException {
    start(r.id());
    out.writeStringField("kind", "region");
    out.writeStringField("class", r.dieClass().label());
    if (r.reason().isPresent()) {
      out.writeStringField("reason", r.reason().get());
    }
    if (r.areaMm2().isPresent()) {
      number("area_mm2", Quantities.significant(r.areaMm2().get().value(), 6));
      number(
          "standard_uncertainty_area_mm2",
          Quantities.significant(r.areaMm2().get().standardUncertainty(), 3));
    }
    number("area_px", Quantities.fixed(r.areaPx(), 2));
    number("share_of_die", Quantities.fixed(r.shareOfDie(), 6));
    number("confidence", Quantities.fixed(r.confidence(), 4));
    if (r.bondPads().isPresent()) {
      out.writeNumberField("bond_pads", r.bondPads().getAsInt());
    }
    end(scaled && r.outlineUm().isPresent() ? r.outlineUm().get() : r.outlinePx());
    List<Outline> arrays = scaled ? r.bitCellArraysUm() : r.bitCellArraysPx();
    for (int i = 0; i < arrays.size(); i++) {
      start(r.id() + "." + (i + 1));
      out.writeStringField("kind", "bit-cell array");
      out.writeStringField("part_of", r.id());
      end(arrays.get(i));
    }
  }

  private void start(String id) throws IOException {
    out.writeStartObject();
    out.writeStringField("type", "Feature");
    out.writeStringField("id", id);
    out.writeObjectFieldStart("properties");
    out.writeStringField("id", id);
  }

  private void end(Outline outline) throws IOException {
    out.writeEndObject();
    out.writeObjectFieldStart("geometry");
    out.writeStringField("type", "Polygon");
    out.writeArrayFieldStart("coordinates");
    ring(outline.shell(), true);
    for (List<Point> hole : outline.holes()) {
      ring(hole, false);
    }
    out.writeEndArray();
    out.writeEndObject();
    out.writeEndObject();
  }

  private void ring(List<Point> corners, boolean counterClockwise) throws IOException {
    List<Point> ring = new ArrayList<>(corners);
    if (Rings.signedArea(ring) > 0 != counterClockwise) {
      Collections.reverse(ring);
    }
    ring.add(ring.get(0));
    out.writeStartArray();
    for (Point p : ring) {
      out.writeStartArray();
      out.writeNumber(new BigDecimal(Quantities.fixed(p.x(), 2)));
      out.writeNumber(new BigDecimal(Quantities.fixed(p.y(), 2)));
      out.writeEndArray();
    }
    out.writeEndArray();
  }

  private void number(String name, String value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(new BigDecimal(value).stripTrailingZeros());
  }
}
