package org.diesurvey.interchange.geojson;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.diesurvey.Supported;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.StatedMeasures;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Outlines as GeoJSON (RFC 7946). The RFC wants longitude and latitude (section 4) and allows other
 * frames where all sides agree; here coordinates are planar: um in the die frame (y up), or px in
 * the photo's frame (y down). The foreign member {@code coordinate_frame} (section 6.1) says so in
 * every file. Rings are closed; outer rings run counter-clockwise and inner ones clockwise in axes
 * drawn x right, y up (section 3.1.6). Coordinates are rounded to 0.01.
 */
@Supported
public final class GeoJsonWriter {
  /** Engineering coordinate systems as well-known text (OGC 01-009, LOCAL_CS). */
  static final String PLANAR_UM =
      "LOCAL_CS[\"die, planar\",UNIT[\"micrometre\",0.000001],"
          + "AXIS[\"x\",EAST],AXIS[\"y\",NORTH]]";

  static final String PLANAR_PX =
      "LOCAL_CS[\"photograph, planar\",UNIT[\"pixel\",1],AXIS[\"x\",EAST],AXIS[\"y\",SOUTH]]";

  private final OutlineSet set;
  private final boolean um;
  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  private GeoJsonWriter(OutlineSet set) throws IOException {
    this.set = set;
    um = set.frame() == OutlineFrame.DIE_UM;
    out =
        JsonFactory.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build()
            .createGenerator(text);
    DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
    lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    out.setPrettyPrinter(lines);
  }

  /** The document, ending with a line feed. */
  public static String text(OutlineSet set) {
    try {
      GeoJsonWriter writer = new GeoJsonWriter(set);
      writer.collection();
      return writer.text + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void collection() throws IOException {
    out.writeStartObject();
    out.writeStringField("type", "FeatureCollection");
    crs();
    out.writeObjectFieldStart("coordinate_frame");
    out.writeStringField("unit", um ? "um" : "px");
    out.writeStringField("y_axis", um ? "up" : "down");
    if (set.extent().isPresent()) {
      number("width", decimals(set.extent().get().width(), 2));
      number("height", decimals(set.extent().get().height(), 2));
    }
    out.writeStringField(
        "description",
        um
            ? "Planar micrometres, not longitude and latitude: origin at the lower left corner of"
                + " the die (without a die edge: of the upright rectangle around the photograph),"
                + " x right, y up, the die's rotation taken out. RFC 7946 expects WGS 84;"
                + " read this file as planar by agreement."
            : "Planar pixels of the photograph, not longitude and latitude: origin at the outer"
                + " corner of the first pixel, x right, y down, since the photograph has no scale."
                + " RFC 7946 expects WGS 84; read this file as planar by agreement.");
    out.writeEndObject();
    out.writeObjectFieldStart("photo");
    optional("file_name", set.photo().fileName());
    optional("sha256", set.photo().sha256());
    if (set.photo().umPerPx().isPresent()) {
      number("um_per_px", significant(set.photo().umPerPx().getAsDouble(), 8));
    }
    out.writeEndObject();
    out.writeArrayFieldStart("features");
    for (ClassedOutline o : set.outlines()) {
      feature(o);
    }
    out.writeEndArray();
    out.writeEndObject();
    out.close();
  }

  /**
   * The member of GeoJSON's first edition (2008, section 3) that names another coordinate system;
   * RFC 7946 gives it up, but readers that know it take the coordinates as planar, others pass it
   * over.
   */
  private void crs() throws IOException {
    out.writeObjectFieldStart("crs");
    out.writeStringField("type", "name");
    out.writeObjectFieldStart("properties");
    out.writeStringField("name", um ? PLANAR_UM : PLANAR_PX);
    out.writeEndObject();
    out.writeEndObject();
  }

  private void feature(ClassedOutline o) throws IOException {
    out.writeStartObject();
    out.writeStringField("type", "Feature");
    out.writeStringField("id", o.id());
    out.writeObjectFieldStart("properties");
    out.writeStringField("id", o.id());
    if (o.inner()) {
      out.writeStringField("kind", "bit-cell array");
      out.writeStringField("part_of", o.partOf().get());
    } else {
      out.writeStringField("kind", "region");
      out.writeStringField("class", o.dieClass().label());
    }
    optional("reason", o.reason());
    if (o.memory().isPresent()) {
      out.writeStringField("memory_kind", o.memory().get().kind().label());
      if (o.memory().get().ports().isPresent()) {
        out.writeNumberField("ports", o.memory().get().ports().getAsInt());
      }
    }
    if (o.measures().isPresent()) {
      measures(o.measures().get());
    }
    optional("note", o.note());
    optional("author", o.author());
    optional("time", o.time().map(Object::toString));
    out.writeEndObject();
    geometry(o.shape());
    out.writeEndObject();
  }

  private void measures(StatedMeasures m) throws IOException {
    if (m.areaMm2().isPresent()) {
      number("area_mm2", significant(m.areaMm2().get().value(), 6));
      number(
          "standard_uncertainty_area_mm2", significant(m.areaMm2().get().standardUncertainty(), 3));
    }
    number("area_px", decimals(m.areaPx(), 2));
    number("share_of_die", decimals(m.shareOfDie(), 6));
    number("confidence", decimals(m.confidence(), 4));
    if (m.bondPads().isPresent()) {
      out.writeNumberField("bond_pads", m.bondPads().getAsInt());
    }
  }

  private void geometry(Outline outline) throws IOException {
    out.writeObjectFieldStart("geometry");
    out.writeStringField("type", "Polygon");
    out.writeArrayFieldStart("coordinates");
    ring(outline.shell(), true);
    for (List<Point> hole : outline.holes()) {
      ring(hole, false);
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private void ring(List<Point> corners, boolean counterClockwise) throws IOException {
    List<Point> ring = new ArrayList<>(corners);
    if (OutlineShapes.signedArea(ring) > 0 != counterClockwise) {
      Collections.reverse(ring);
    }
    ring.add(ring.get(0));
    out.writeStartArray();
    for (Point p : ring) {
      out.writeStartArray();
      out.writeNumber(decimals(p.x(), 2));
      out.writeNumber(decimals(p.y(), 2));
      out.writeEndArray();
    }
    out.writeEndArray();
  }

  private void optional(String name, java.util.Optional<String> value) throws IOException {
    if (value.isPresent()) {
      out.writeStringField(name, value.get());
    }
  }

  private void number(String name, BigDecimal value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(value.stripTrailingZeros());
  }

  private static BigDecimal decimals(double v, int decimals) {
    return BigDecimal.valueOf(v).setScale(decimals, RoundingMode.HALF_EVEN);
  }

  private static BigDecimal significant(double v, int digits) {
    return BigDecimal.valueOf(v).round(new MathContext(digits, RoundingMode.HALF_EVEN));
  }
}
