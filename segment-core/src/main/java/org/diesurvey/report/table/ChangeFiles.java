package org.diesurvey.report.table;

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
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** The changes as table and as outlines. */
public final class ChangeFiles {
  private static final List<Change.Measure> SIZES =
      List.of(Change.Measure.DISTANCE, Change.Measure.AREA, Change.Measure.AREA_CHANGE);

  private ChangeFiles() {}

  /** One line for each change (RFC 4180); the unit stands in the column names. */
  public static String csv(Comparison c) {
    String unit = c.unit().symbol();
    CsvTable table = new CsvTable();
    table.header(
        "id",
        "kind",
        "class_earlier",
        "class_later",
        "regions_earlier",
        "regions_later",
        "distance_" + unit,
        "standard_uncertainty_distance_" + unit,
        "area_" + unit + "2",
        "standard_uncertainty_area_" + unit + "2",
        "area_change_" + unit + "2",
        "standard_uncertainty_area_change_" + unit + "2",
        "significance",
        "confidence",
        "moved_right_" + unit,
        "standard_uncertainty_moved_right_" + unit,
        "moved_up_" + unit,
        "standard_uncertainty_moved_up_" + unit,
        "x_min_" + unit,
        "y_min_" + unit,
        "x_max_" + unit,
        "y_max_" + unit,
        "structural_correlation",
        "sentence");
    for (Change x : c.changes()) {
      table.text(x.id()).text(x.kind().id());
      table
          .text(ChangeWords.dieClass(x.a().dieClass()))
          .text(ChangeWords.dieClass(x.b().dieClass()));
      table.text(String.join(" ", x.a().regions())).text(String.join(" ", x.b().regions()));
      for (Change.Measure measure : SIZES) {
        size(table, x, measure);
      }
      table.number(Quantities.significant(x.size().significance(), 4));
      table.number(Quantities.fixed(x.confidence(), 3));
      if (x.moved().shift().isPresent()) {
        Change.Shift s = x.moved().shift().get();
        table.number(Quantities.fixed(s.right().value(), 3));
        table.number(Quantities.significant(s.right().standardUncertainty(), 3));
        table.number(Quantities.fixed(s.up().value(), 3));
        table.number(Quantities.significant(s.up().standardUncertainty(), 3));
      } else {
        table.number("").number("").number("").number("");
      }
      box(table, x);
      table.number(x.similarity().map(v -> Quantities.fixed(v, 3)).orElse(""));
      table.text(x.sentence());
      table.end();
    }
    return table.toString();
  }

  /** The measures stand in the order distance, area, change of area. */
  private static void size(CsvTable table, Change x, Change.Measure measure) {
    boolean given = x.size().measure() == measure;
    table.number(given ? Quantities.significant(x.size().amount().value(), 6) : "");
    table.number(given ? Quantities.significant(x.size().amount().standardUncertainty(), 3) : "");
  }

  private static void box(CsvTable table, Change x) {
    List<Point> all = new ArrayList<>();
    x.a().outlines().forEach(o -> all.addAll(o.shell()));
    x.b().outlines().forEach(o -> all.addAll(o.shell()));
    if (all.isEmpty()) {
      table.number("").number("").number("").number("");
      return;
    }
    table.number(Quantities.fixed(all.stream().mapToDouble(Point::x).min().orElseThrow(), 2));
    table.number(Quantities.fixed(all.stream().mapToDouble(Point::y).min().orElseThrow(), 2));
    table.number(Quantities.fixed(all.stream().mapToDouble(Point::x).max().orElseThrow(), 2));
    table.number(Quantities.fixed(all.stream().mapToDouble(Point::y).max().orElseThrow(), 2));
  }

  /**
   * One feature (RFC 7946) for each outline: of a change in the earlier die, in the later, or both.
   * Coordinates are planar, in the die frame of the earlier die; the foreign member {@code
   * coordinate_frame} says so.
   */
  public static String geoJson(Comparison c) {
    StringWriter text = new StringWriter();
    try (JsonGenerator out =
        JsonFactory.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build()
            .createGenerator(text)) {
      DefaultPrettyPrinter lines = new DefaultPrettyPrinter();
      lines.indentObjectsWith(new DefaultIndenter("  ", "\n"));
      out.setPrettyPrinter(lines);
      out.writeStartObject();
      out.writeStringField("type", "FeatureCollection");
      out.writeObjectFieldStart("coordinate_frame");
      out.writeStringField("unit", c.unit().symbol());
      out.writeStringField("y_axis", "up");
      out.writeStringField(
          "description",
          c.unit() == LengthUnit.UM
              ? "Planar micrometres, not longitude and latitude: origin at the lower left corner of"
                  + " the earlier die, x right, y up, the die's rotation taken out. Outlines of the"
                  + " later die are carried over. RFC 7946 expects WGS 84; read this file as planar"
                  + " by agreement."
              : "Planar pixels of the earlier photograph with the die's rotation taken out, not"
                  + " longitude and latitude: origin at the lower left corner of the earlier die, x"
                  + " right, y up, since a scale is missing. RFC 7946 expects WGS 84; read this"
                  + " file as planar by agreement.");
      out.writeEndObject();
      die(out, "earlier", c.a().fileName(), c.a().photoSha256());
      die(out, "later", c.b().fileName(), c.b().photoSha256());
      out.writeArrayFieldStart("features");
      for (Change x : c.changes()) {
        for (Outline o : x.a().outlines()) {
          feature(out, x, o, "earlier");
        }
        for (Outline o : x.b().outlines()) {
          feature(out, x, o, "later");
        }
      }
      out.writeEndArray();
      out.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text + "\n";
  }

  private static void die(JsonGenerator out, String which, String name, String sha256)
      throws IOException {
    out.writeObjectFieldStart(which);
    out.writeStringField("file_name", name);
    out.writeStringField("sha256", sha256);
    out.writeEndObject();
  }

  private static void feature(JsonGenerator out, Change x, Outline o, String die)
      throws IOException {
    out.writeStartObject();
    out.writeStringField("type", "Feature");
    out.writeObjectFieldStart("properties");
    out.writeStringField("change", x.id());
    out.writeStringField("kind", x.kind().id());
    out.writeStringField("die", die);
    out.writeStringField(
        "class", ChangeWords.dieClass(die.equals("earlier") ? x.a().dieClass() : x.b().dieClass()));
    out.writeStringField("size_is", x.size().measure().id());
    number(out, "size", Quantities.significant(x.size().amount().value(), 6));
    number(
        out,
        "standard_uncertainty_size",
        Quantities.significant(x.size().amount().standardUncertainty(), 3));
    number(out, "significance", Quantities.significant(x.size().significance(), 4));
    number(out, "confidence", Quantities.fixed(x.confidence(), 3));
    out.writeStringField("sentence", x.sentence());
    out.writeEndObject();
    out.writeObjectFieldStart("geometry");
    out.writeStringField("type", "Polygon");
    out.writeArrayFieldStart("coordinates");
    ring(out, o.shell(), true);
    for (List<Point> hole : o.holes()) {
      ring(out, hole, false);
    }
    out.writeEndArray();
    out.writeEndObject();
    out.writeEndObject();
  }

  private static void ring(JsonGenerator out, List<Point> corners, boolean counterClockwise)
      throws IOException {
    List<Point> ring = new ArrayList<>(corners);
    if (signedArea(ring) > 0 != counterClockwise) {
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

  /** Shoelace formula; positive for rings that run counter-clockwise with y up. */
  private static double signedArea(List<Point> ring) {
    double sum = 0;
    for (int i = 0; i < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get((i + 1) % ring.size());
      sum += p.x() * q.y() - q.x() * p.y();
    }
    return sum / 2;
  }

  private static void number(JsonGenerator out, String name, String value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(new BigDecimal(value));
  }
}
