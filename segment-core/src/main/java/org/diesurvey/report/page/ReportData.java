package org.diesurvey.report.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.quantity.Measured;
import org.diesurvey.report.picture.ClassStyle;
import org.diesurvey.report.picture.CropTexture;
import org.diesurvey.report.picture.PhotoPyramid;
import org.diesurvey.report.picture.RegionLook;
import org.diesurvey.report.text.DieWords;
import org.diesurvey.report.text.FinePatternText;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.diesurvey.survey.json.SurveyJson;

/**
 * What the page's own program must know of a survey, as JSON that is safe inside a page: it never
 * holds a {@code <}, and it is read as data, not run.
 */
final class ReportData {
  private static final List<DieClass> ON_DIE =
      List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING);

  private final Survey survey;
  private final Map<String, RegionLook> looks;
  private final WhyWords why;
  private final boolean scaled;
  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  private ReportData(Survey survey, Map<String, RegionLook> looks) throws IOException {
    this.survey = survey;
    this.looks = looks;
    why = new WhyWords(survey, looks);
    scaled = survey.scale().calibration().isPresent();
    out =
        JsonFactory.builder()
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .build()
            .createGenerator(text);
  }

  /** Survey and measures of the tiles; the tiles themselves stand in {@link #tiles}. */
  static String json(Survey survey, PhotoPyramid pyramid, Map<String, RegionLook> looks) {
    try {
      ReportData data = new ReportData(survey, looks);
      data.document(pyramid);
      return safe(data.text.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The tiles of a level as a JSON list of texts in base64, which need no escapes. */
  static String tiles(PhotoPyramid.Level level) {
    return "[\"" + String.join("\",\n\"", level.tiles()) + "\"]";
  }

  /** In JSON a {@code <} can stand in texts only, where an escape means the same. */
  private static String safe(String json) {
    return json.replace("<", "\\u003c");
  }

  private void document(PhotoPyramid pyramid) throws IOException {
    out.writeStartObject();
    out.writeStringField("survey_sha256", Html.sha256(SurveyJson.write(survey, Optional.empty())));
    out.writeStringField("whole", DieWords.whole(survey));
    out.writeObjectFieldStart("photo");
    out.writeStringField("file_name", survey.photo().fileName());
    out.writeStringField("shown_name", Html.visible(survey.photo().fileName()));
    out.writeStringField("sha256", survey.photo().sha256());
    out.writeNumberField("width_px", survey.photo().widthPx());
    out.writeNumberField("height_px", survey.photo().heightPx());
    out.writeEndObject();
    if (scaled) {
      Measured pitch = survey.scale().calibration().orElseThrow().umPerPx();
      out.writeObjectFieldStart("scale");
      number("um_per_px", Quantities.significant(pitch.value(), 12));
      number("standard_uncertainty", Quantities.significant(pitch.standardUncertainty(), 6));
      out.writeEndObject();
    }
    die(survey.die());
    pyramid(pyramid);
    styles();
    out.writeArrayFieldStart("regions");
    for (SurveyRegion r : survey.regions()) {
      region(r);
    }
    out.writeEndArray();
    out.writeEndObject();
    out.close();
  }

  private void die(DieFrame die) throws IOException {
    out.writeObjectFieldStart("die");
    out.writeBooleanField("edge_found", die.edgeFound());
    out.writeFieldName("outline_px");
    ring(die.outlinePx());
    number("area_px", Quantities.fixed(die.areaPx(), 2));
    if (die.widthMm().isPresent() && die.heightMm().isPresent()) {
      number("width_um", Quantities.fixed(1000 * die.widthMm().get().value(), 4));
      number("height_um", Quantities.fixed(1000 * die.heightMm().get().value(), 4));
    }
    out.writeEndObject();
  }

  private void pyramid(PhotoPyramid pyramid) throws IOException {
    out.writeObjectFieldStart("pyramid");
    out.writeNumberField("tile_px", pyramid.tilePx());
    out.writeArrayFieldStart("levels");
    for (PhotoPyramid.Level level : pyramid.levels()) {
      out.writeStartObject();
      out.writeNumberField("halvings", level.halvings());
      out.writeNumberField("width", level.width());
      out.writeNumberField("height", level.height());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  /** Colours and hatches of the layers, in the order of the totals, then those a user may need. */
  private void styles() throws IOException {
    out.writeArrayFieldStart("layers");
    for (DieClass c : ON_DIE) {
      layer(c, Optional.empty(), c.label());
    }
    unclear(UnclearReason.EMPTY);
    unclear(UnclearReason.UNDECIDED);
    for (ClassTotal t : survey.totals()) {
      if (t.hidden()) {
        unclear(t.reason().orElseThrow());
      }
    }
    out.writeEndArray();
  }

  private void unclear(UnclearReason reason) throws IOException {
    layer(DieClass.UNCLEAR, Optional.of(reason), reason.label());
  }

  private void layer(DieClass c, Optional<UnclearReason> reason, String name) throws IOException {
    ClassStyle style = ClassStyle.of(c, reason);
    out.writeStartObject();
    out.writeStringField("class", c.label());
    if (reason.isPresent()) {
      out.writeStringField("reason", reason.get().label());
    }
    out.writeStringField("name", DieWords.capital(name));
    out.writeStringField("short", c.shortName());
    out.writeStringField("colour", style.hex());
    out.writeStringField("hatch", style.hatch().name().toLowerCase(Locale.ROOT));
    out.writeEndObject();
  }

  private void region(SurveyRegion r) throws IOException {
    out.writeStartObject();
    out.writeStringField("id", r.id());
    out.writeStringField("class", r.dieClass().label());
    if (r.verdict().reason().isPresent()) {
      out.writeStringField("reason", r.verdict().reason().get().label());
    }
    outlines(r.inPhoto().outline(), r.inDie().map(RegionShape::outline));
    number("area_px", Quantities.fixed(r.area().px2(), 2));
    if (r.areaMm2().isPresent()) {
      Measured area = r.areaMm2().get();
      number("area_mm2", Quantities.significant(area.value(), 6));
      number("u_area_mm2", Quantities.significant(area.standardUncertainty(), 3));
    }
    number("share", Quantities.fixed(r.area().shareOfDie(), 6));
    number("confidence", Quantities.fixed(r.confidence(), 4));
    if (r.bondPads().isPresent()) {
      out.writeNumberField("bond_pads", r.bondPads().get().pads());
    }
    out.writeArrayFieldStart("neighbours");
    for (String n : r.neighbours()) {
      out.writeString(n);
    }
    out.writeEndArray();
    lines(r);
    if (looks.containsKey(r.id())) {
      look(r, looks.get(r.id()));
    }
    out.writeArrayFieldStart("arrays");
    for (int i = 0; i < r.inPhoto().bitCellArrays().size(); i++) {
      int array = i;
      out.writeStartObject();
      outlines(
          r.inPhoto().bitCellArrays().get(i), r.inDie().map(o -> o.bitCellArrays().get(array)));
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  /** Evidence and estimates as pairs of a name and a value, which the page only shows. */
  private void lines(SurveyRegion r) throws IOException {
    out.writeArrayFieldStart("lines");
    String probabilities =
        ON_DIE.stream()
            .filter(c -> r.verdict().probabilities().getOrDefault(c, 0.0) >= 0.005)
            .map(c -> c.label() + " " + Quantities.probability(r.verdict().probabilities().get(c)))
            .collect(Collectors.joining(", "));
    if (!probabilities.isEmpty()) {
      line("Probabilities", probabilities);
    }
    for (Period p : r.periods()) {
      line(
          "Period at " + Quantities.fixed(p.directionDeg(), 0) + "\u00b0",
          Quantities.withUncertainty(p.lengthUm(), scaled ? "\u00b5m" : "px")
              + ", strength "
              + Quantities.fixed(p.strength(), 2));
    }
    if (r.finePattern().isPresent()) {
      line(
          r.dieClass() == DieClass.MEMORY_ARRAY ? "Bit cells" : "Rows",
          FinePatternText.of(r.finePattern().get()));
    }
    out.writeEndArray();
  }

  /** The crop that shows why; its pixels are those of the page's own picture. */
  private void look(SurveyRegion r, RegionLook look) throws IOException {
    CropTexture t = look.texture();
    out.writeObjectFieldStart("look");
    number("x", Quantities.fixed(look.x(), 1));
    number("y", Quantities.fixed(look.y(), 1));
    out.writeNumberField("side", look.side());
    curve("along_x", t.alongX());
    curve("along_y", t.alongY());
    number("contrast", Quantities.significant(t.contrast(), 2));
    number("flat", Quantities.fixed(t.flat(), 2));
    out.writeArrayFieldStart("alike");
    for (String id : look.alike()) {
      out.writeString(id);
    }
    out.writeEndArray();
    out.writeArrayFieldStart("cases");
    for (WhyWords.Case c : why.of(r, look)) {
      out.writeStartArray();
      out.writeString(c.name());
      out.writeString(c.probability());
      out.writeString(c.speaksFor());
      out.writeString(c.speaksAgainst());
      out.writeEndArray();
    }
    out.writeEndArray();
    out.writeEndObject();
  }

  private void curve(String name, List<Integer> curve) throws IOException {
    out.writeArrayFieldStart(name);
    for (int hundredth : curve) {
      out.writeNumber(hundredth);
    }
    out.writeEndArray();
    if (CropTexture.period(curve).isPresent()) {
      out.writeNumberField("period_" + name, CropTexture.period(curve).getAsInt());
    }
  }

  private void line(String name, String value) throws IOException {
    out.writeStartArray();
    out.writeString(name);
    out.writeString(Html.visible(value));
    out.writeEndArray();
  }

  private void outlines(Outline px, Optional<Outline> um) throws IOException {
    rings("px", px);
    if (um.isPresent()) {
      rings("um", um.get());
    }
  }

  private void rings(String name, Outline outline) throws IOException {
    out.writeArrayFieldStart(name);
    ring(outline.shell());
    for (List<Point> hole : outline.holes()) {
      ring(hole);
    }
    out.writeEndArray();
  }

  private void ring(List<Point> ring) throws IOException {
    out.writeStartArray();
    for (Point p : ring) {
      out.writeStartArray();
      out.writeNumber(Quantities.decimal(Quantities.fixed(p.x(), 2)));
      out.writeNumber(Quantities.decimal(Quantities.fixed(p.y(), 2)));
      out.writeEndArray();
    }
    out.writeEndArray();
  }

  private void number(String name, String value) throws IOException {
    out.writeFieldName(name);
    out.writeNumber(Quantities.decimal(value));
  }
}
