package org.diesurvey.survey.json;

import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyDocument;
import org.diesurvey.survey.SurveyMethod;

/** Reads one survey document, as strictly as the schema says. */
final class SurveyJsonReader {
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  private final String place;

  SurveyJsonReader(String place) {
    this.place = place;
  }

  SurveyDocument document(byte[] json) {
    JsonNode root;
    try {
      root = MAPPER.readTree(json);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          place + ": this is not JSON text; name the survey.json of a surveyed photo.",
          e);
    }
    JsonMember doc = new JsonMember(place + ":", root);
    if (!root.isObject() || !Survey.FORMAT.equals(root.path("format").asText())) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          place
              + ": the member format is not \""
              + Survey.FORMAT
              + "\", so this is no survey; name the survey.json of a surveyed photo.");
    }
    if (root.path("format_version").asLong(-1) != Survey.FORMAT_VERSION) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          place
              + ": the member format_version is "
              + root.path("format_version")
              + ", but this program reads version "
              + Survey.FORMAT_VERSION
              + ": use the program's version that wrote the survey, or survey the photo again.");
    }
    try {
      return survey(doc);
    } catch (IllegalArgumentException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID, place + ": the survey contradicts itself, " + e.getMessage(), e);
    }
  }

  private SurveyDocument survey(JsonMember doc) {
    doc.onlyMembers(
        Set.of(
            "format",
            "format_version",
            "created",
            "software",
            "photo",
            "settings",
            "scale",
            "die",
            "node_nm",
            "tile_um",
            "tile_px",
            "preparation",
            "damaged_share",
            "regions",
            "class_totals",
            "notices",
            "estimates"));
    Optional<Instant> created = doc.optional("created").map(SurveyJsonReader::instant);
    ScaleRecord scale = scale(doc.member("scale"));
    boolean scaled = scale.calibration().isPresent();
    RegionJsonReader regions = new RegionJsonReader(scale);
    OptionalDouble node =
        doc.optional("node_nm").isPresent()
            ? OptionalDouble.of(doc.member("node_nm").number(1, 1e5))
            : OptionalDouble.empty();
    return new SurveyDocument(
        new Survey(
            photo(doc.member("photo")),
            new SurveyMethod(
                software(doc.member("software")),
                workingPx(doc.member("settings")),
                node,
                doc.member(scaled ? "tile_um" : "tile_px").amount()),
            scale,
            die(doc.member("die")),
            SurveyPreparationReader.preparation(
                doc.member("preparation"), doc.member("damaged_share").share()),
            doc.member("regions").list(regions::region),
            doc.member("class_totals").list(t -> total(t, scale)),
            doc.member("notices").list(SurveyJsonReader::notice),
            doc.optional("estimates").map(EstimatesReader::read)),
        created);
  }

  private static Instant instant(JsonMember m) {
    try {
      return Instant.parse(m.text());
    } catch (DateTimeException e) {
      throw m.refused("a moment such as 2026-01-31T12:00:00Z was expected");
    }
  }

  private static Software software(JsonMember m) {
    m.onlyMembers(Set.of("name", "version", "model", "model_sha256"));
    return new Software(
        m.member("name").text(),
        m.member("version").text(),
        m.member("model").text(),
        m.member("model_sha256").text());
  }

  private static PhotoInfo photo(JsonMember m) {
    m.onlyMembers(
        Set.of(
            "file_name",
            "sha256",
            "file_bytes",
            "format",
            "width_px",
            "height_px",
            "bits_per_sample",
            "samples_per_pixel",
            "tagged_scale"));
    JsonMember sha256 = m.member("sha256");
    if (!sha256.text().matches("[0-9a-f]{64}")) {
      throw sha256.refused("64 lower-case hexadecimal digits were expected");
    }
    return new PhotoInfo(
        m.member("file_name").text(),
        sha256.text(),
        m.member("file_bytes").whole(0, Long.MAX_VALUE),
        m.member("format").text(),
        (int) m.member("width_px").whole(1, Integer.MAX_VALUE),
        (int) m.member("height_px").whole(1, Integer.MAX_VALUE),
        (int) m.member("bits_per_sample").whole(1, 64),
        (int) m.member("samples_per_pixel").whole(1, 64),
        m.optional("tagged_scale")
            .map(t -> t.onlyMembers(Set.of("um_per_px", "origin")))
            .map(
                t ->
                    new PhotoInfo.TaggedScale(
                        t.member("um_per_px").number(Double.MIN_VALUE, Double.MAX_VALUE),
                        t.member("origin").text())));
  }

  /** Averaged photo pixels; surveys that do not say so were made from every pixel. */
  private static int workingPx(JsonMember settings) {
    settings.onlyMembers(Set.of("tile_um", SurveyJsonWriter.WORKING_PX));
    settings.optional("tile_um").ifPresent(JsonMember::text);
    Optional<JsonMember> stated = settings.optional(SurveyJsonWriter.WORKING_PX);
    if (stated.isEmpty()) {
      return 1;
    }
    String text = stated.get().text();
    if (!text.matches("[1-9][0-9]{0,3}")) {
      throw stated.get().refused("a whole number of pixels was expected");
    }
    return Integer.parseInt(text);
  }

  private static ScaleRecord scale(JsonMember m) {
    m.onlyMembers(
        Set.of("um_per_px", "standard_uncertainty_um_per_px", "origin", "note", "inferred_range"));
    Optional<Calibration> calibration = Optional.empty();
    if (m.optional("um_per_px").isPresent()) {
      try {
        calibration =
            Optional.of(
                new Calibration(
                    measured(m, "um_per_px"), origin(m.member("origin")), m.member("note").text()));
      } catch (DieInputException e) {
        throw e.reason() == Reason.SCALE_INVALID
            ? new DieInputException(Reason.DOCUMENT_INVALID, m.place() + ": " + e.getMessage(), e)
            : e;
      }
    }
    Optional<ScaleRecord.InferredRange> inferred =
        m.optional("inferred_range")
            .map(r -> r.onlyMembers(Set.of("low_um_per_px", "high_um_per_px", "evidence")))
            .map(
                r ->
                    new ScaleRecord.InferredRange(
                        r.member("low_um_per_px").amount(),
                        r.member("high_um_per_px").amount(),
                        r.member("evidence").text()));
    return new ScaleRecord(calibration, inferred);
  }

  private static ScaleOrigin origin(JsonMember m) {
    for (ScaleOrigin o : ScaleOrigin.values()) {
      if (o.name().toLowerCase(Locale.ROOT).equals(m.text())) {
        return o;
      }
    }
    throw m.refused("\"" + m.text() + "\" is no known origin of a scale");
  }

  private static DieFrame die(JsonMember m) {
    m.onlyMembers(
        Set.of(
            "edge_found",
            "real_edges",
            "outline_px",
            "outline_um",
            "rotation_deg",
            "width_mm",
            "standard_uncertainty_width_mm",
            "height_mm",
            "standard_uncertainty_height_mm",
            "area_mm2",
            "standard_uncertainty_area_mm2",
            "area_px"));
    JsonMember corners = m.member("outline_px");
    List<Point> outline = corners.list(SurveyJsonReader::point);
    if (outline.size() != 4) {
      throw corners.refused("4 corners were expected, found " + outline.size());
    }
    return new DieFrame(
        realEdges(m),
        outline,
        m.member("rotation_deg").number(-360, 360),
        optionalMeasured(m, "width_mm"),
        optionalMeasured(m, "height_mm"),
        optionalMeasured(m, "area_mm2"),
        m.member("area_px").amount());
  }

  private static List<DieSide> realEdges(JsonMember die) {
    JsonMember edges = die.member("real_edges");
    List<DieSide> sides =
        edges.list(
            e -> {
              for (DieSide s : DieSide.values()) {
                if (s.word().equals(e.text())) {
                  return s;
                }
              }
              throw e.refused("\"" + e.text() + "\" is no side of a die");
            });
    boolean ordered = sides.equals(sides.stream().distinct().sorted().toList());
    if (!ordered || die.member("edge_found").flag() != (sides.size() == DieSide.values().length)) {
      throw edges.refused("each side once, clockwise from upper, was expected, all if edge_found");
    }
    return sides;
  }

  static DieClass dieClass(JsonMember m) {
    String label = m.text();
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE && c.label().equals(label)) {
        return c;
      }
    }
    throw m.refused("\"" + label + "\" is no class of a region");
  }

  static UnclearReason reason(JsonMember m) {
    return UnclearReason.ofLabel(m.text())
        .orElseThrow(() -> m.refused("\"" + m.text() + "\" is no reason of an unclear area"));
  }

  private static ClassTotal total(JsonMember m, ScaleRecord scale) {
    m.onlyMembers(
        Set.of(
            "class",
            "reason",
            "regions",
            "area_mm2",
            "standard_uncertainty_area_mm2",
            "share_of_die"));
    return new ClassTotal(
        dieClass(m.member("class")),
        m.optional("reason").map(SurveyJsonReader::reason),
        (int) m.member("regions").whole(0, Integer.MAX_VALUE),
        areaMm2(m, scale),
        m.member("share_of_die").share());
  }

  private static Notice notice(JsonMember m) {
    m.onlyMembers(Set.of("id", "sentence", "remedy"));
    return new Notice(
        m.member("id").text(), m.member("sentence").text(), m.member("remedy").text());
  }

  static Outline outline(JsonMember m) {
    m.onlyMembers(Set.of("shell", "holes"));
    return new Outline(ring(m.member("shell")), m.member("holes").list(SurveyJsonReader::ring));
  }

  private static List<Point> ring(JsonMember m) {
    List<Point> corners = m.list(SurveyJsonReader::point);
    if (corners.size() < 3) {
      throw m.refused("at least 3 corners were expected, found " + corners.size());
    }
    return corners;
  }

  private static Point point(JsonMember m) {
    List<Double> xy = m.list(JsonMember::number);
    if (xy.size() != 2) {
      throw m.refused("a pair of numbers was expected");
    }
    return new Point(xy.get(0), xy.get(1));
  }

  static Measured measured(JsonMember m, String name) {
    return new Measured(m.member(name).amount(), m.member("standard_uncertainty_" + name).amount());
  }

  /** Documents hold the whole uncertainty of an area alone. */
  static Optional<MeasuredArea> areaMm2(JsonMember m, ScaleRecord scale) {
    double relative = scale.calibration().map(c -> c.umPerPx().relativeUncertainty()).orElse(0.0);
    return optionalMeasured(m, "area_mm2").map(a -> MeasuredArea.split(a, relative));
  }

  private static Optional<Measured> optionalMeasured(JsonMember m, String name) {
    return m.optional(name).isPresent() ? Optional.of(measured(m, name)) : Optional.empty();
  }
}
