package org.diesurvey.report.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.document.ComparedDie;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.document.LengthUnit;
import org.diesurvey.comparison.tiles.DifferenceMap;
import org.diesurvey.report.picture.RegisteredPictures;
import org.diesurvey.report.text.ChangeWords;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * What the page's own program must know of a comparison, as JSON that is safe inside a page. All
 * outlines are in px of the registered pictures.
 */
final class ComparisonData {
  private final Comparison comparison;
  private final DifferenceMap map;
  private final RegisteredPictures pictures;
  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  private ComparisonData(Comparison comparison, DifferenceMap map, RegisteredPictures pictures)
      throws IOException {
    this.comparison = comparison;
    this.map = map;
    this.pictures = pictures;
    out =
        JsonFactory.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build()
            .createGenerator(text);
  }

  static String json(Comparison comparison, DifferenceMap map, RegisteredPictures pictures) {
    try {
      ComparisonData data = new ComparisonData(comparison, map, pictures);
      data.document();
      return data.text.toString().replace("<", "\\u003c");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void document() throws IOException {
    out.writeStartObject();
    out.writeBooleanField("scaled", comparison.unit() == LengthUnit.UM);
    out.writeNumberField("width_px", pictures.first().getWidth());
    out.writeNumberField("height_px", pictures.first().getHeight());
    number("unit_per_px", Quantities.significant(pictures.unitPerPx(), 9));
    number("left", Quantities.fixed(pictures.left(), 3));
    number("top", Quantities.fixed(pictures.top(), 3));
    number("earlier_brightness", brightness(pictures.first()));
    number("later_brightness", brightness(pictures.second()));
    die("earlier", comparison.a());
    die("later", comparison.b());
    out.writeArrayFieldStart("kinds");
    for (ChangeKind kind : ChangeKind.values()) {
      out.writeStartObject();
      out.writeStringField("id", kind.id());
      out.writeStringField("name", ChangeWords.name(kind));
      out.writeStringField("sign", ChangeWords.sign(kind));
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeArrayFieldStart("changes");
    for (Change change : comparison.changes()) {
      change(change);
    }
    out.writeEndArray();
    squares("different", DifferenceMap.State.DIFFERENT);
    squares("unjudged", DifferenceMap.State.NOT_JUDGED);
    out.writeEndObject();
    out.close();
  }

  /** Mean of the green channel over the earlier die, 0 to 1, from every 16th px. */
  private String brightness(BufferedImage image) {
    int left = (int) Math.max(0, pictures.column(0));
    int top = (int) Math.max(0, pictures.row(pictures.dieHeight()));
    int right = (int) Math.min(image.getWidth(), pictures.column(pictures.dieWidth()));
    int bottom = (int) Math.min(image.getHeight(), pictures.row(0));
    long sum = 0;
    long n = 0;
    for (int y = top; y < bottom; y += 4) {
      for (int x = left; x < right; x += 4) {
        sum += image.getRGB(x, y) >> 8 & 255;
        n++;
      }
    }
    return n == 0 ? "0" : Quantities.fixed(sum / 255.0 / n, 4);
  }

  private void die(String which, ComparedDie die) throws IOException {
    out.writeStringField(which, Html.visible(die.fileName()));
  }

  private void change(Change change) throws IOException {
    out.writeStartObject();
    out.writeStringField("id", change.id());
    out.writeStringField("kind", change.kind().id());
    out.writeStringField("sentence", Html.visible(change.sentence()));
    out.writeStringField("size", ChangeWords.size(comparison, change));
    out.writeStringField("confidence", ChangeWords.confidence(change));
    number("certain", Quantities.fixed(change.confidence(), 6));
    out.writeArrayFieldStart("lines");
    line("Confidence", ChangeWords.confidence(change));
    line("Size", ChangeWords.size(comparison, change));
    line("Significance", ChangeWords.significance(change));
    line("Class", ChangeWords.classes(change));
    line(
        "Regions",
        Html.visible(ComparisonSections.regions(change.a().regions(), change.b().regions())));
    if (change.moved().shift().isPresent()) {
      line(
          "Move to the right",
          Quantities.withUncertainty(
              change.moved().shift().get().right(), ChangeWords.unit(comparison)));
      line(
          "Move upwards",
          Quantities.withUncertainty(
              change.moved().shift().get().up(), ChangeWords.unit(comparison)));
    }
    for (Change.SideMove side : change.moved().sides()) {
      line(
          DieWords.capital(side.side().word()) + " side, outwards",
          Quantities.withUncertainty(side.outward(), ChangeWords.unit(comparison)));
    }
    if (change.similarity().isPresent()) {
      line("Structure in common", Quantities.fixed(change.similarity().get(), 2));
    }
    out.writeEndArray();
    outlines("before", change.a().outlines());
    outlines("after", change.b().outlines());
    out.writeEndObject();
  }

  private void line(String name, String value) throws IOException {
    out.writeStartArray();
    out.writeString(name);
    out.writeString(value);
    out.writeEndArray();
  }

  private void outlines(String name, List<Outline> outlines) throws IOException {
    out.writeArrayFieldStart(name);
    for (Outline outline : outlines) {
      out.writeStartArray();
      ring(outline.shell());
      for (List<Point> hole : outline.holes()) {
        ring(hole);
      }
      out.writeEndArray();
    }
    out.writeEndArray();
  }

  private void ring(List<Point> ring) throws IOException {
    out.writeStartArray();
    for (Point p : ring) {
      place(pictures.column(p.x()), pictures.row(p.y()));
    }
    out.writeEndArray();
  }

  private void place(double x, double y) throws IOException {
    out.writeStartArray();
    out.writeNumber(Quantities.decimal(Quantities.fixed(x, 2)));
    out.writeNumber(Quantities.decimal(Quantities.fixed(y, 2)));
    out.writeEndArray();
  }

  /** Rows of neighbouring tiles of one state as left, upper, right, lower side in px. */
  private void squares(String name, DifferenceMap.State state) throws IOException {
    out.writeArrayFieldStart(name);
    for (int row = 0; row < map.rows(); row++) {
      int column = 0;
      while (column < map.columns()) {
        if (map.state(column, row) != state) {
          column++;
          continue;
        }
        int from = column;
        while (column < map.columns() && map.state(column, row) == state) {
          column++;
        }
        out.writeStartArray();
        number(pictures.column(from * map.tile()));
        number(pictures.row(topOf(row)));
        number(pictures.column(column * map.tile()));
        number(pictures.row(topOf(row + 1)));
        out.writeEndArray();
      }
    }
    out.writeEndArray();
  }

  private double topOf(int row) {
    return pictures.dieHeight() - row * map.tile();
  }

  private void number(double value) throws IOException {
    out.writeNumber(Quantities.decimal(Quantities.fixed(value, 1)));
  }

  private void number(String name, String value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(Quantities.decimal(value));
  }
}
