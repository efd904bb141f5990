package org.diesurvey.calibration;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.calibration.CalibrationEvidence.Axes;
import org.diesurvey.calibration.CalibrationEvidence.PhotoLine;
import org.diesurvey.quantity.Interval;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.UncertaintyBudget.Component;

/** The evidence of a calibration as members of its file; strict in both directions. */
final class CalibrationEvidenceJson {
  private static final Set<String> MEMBERS =
      Set.of(
          "interval_95_um_per_px",
          "effective_degrees_of_freedom",
          "division_um",
          "division_tolerance",
          "nominal",
          "budget",
          "photos",
          "axes",
          "birge_ratio",
          "remarks");

  /** Budget and stated uncertainty may differ by rounding only. */
  private static final double ROUNDING = 0.01;

  private CalibrationEvidenceJson() {}

  static ObjectNode write(CalibrationEvidence e, ObjectNode node) {
    node.putArray("interval_95_um_per_px").add(e.interval95().low()).add(e.interval95().high());
    e.effectiveDegreesOfFreedom().ifPresent(v -> node.put("effective_degrees_of_freedom", v));
    e.divisionUm().ifPresent(v -> node.put("division_um", v));
    e.divisionTolerance().ifPresent(v -> node.put("division_tolerance", v));
    node.put("nominal", e.nominal());
    ArrayNode budget = node.putArray("budget");
    for (Component c : e.budget()) {
      ObjectNode line = budget.addObject();
      line.put("cause", c.name()).put("contribution_um_per_px", c.contribution());
      if (!Double.isInfinite(c.degreesOfFreedom())) {
        line.put("degrees_of_freedom", c.degreesOfFreedom());
      }
    }
    ArrayNode photos = node.putArray("photos");
    for (PhotoLine p : e.photos()) {
      measured(photos.addObject().put("file", p.file()).put("sha256", p.sha256()), p.umPerPx())
          .put("lines", p.lines())
          .put("rotation_deg", p.rotationDeg())
          .put("scatter_px", p.scatterPx());
    }
    if (e.axes().isPresent()) {
      ObjectNode axes = node.putObject("axes");
      measured(axes.putObject("along_rows"), e.axes().get().xUmPerPx());
      measured(axes.putObject("along_columns"), e.axes().get().yUmPerPx());
    }
    e.birgeRatio().ifPresent(v -> node.put("birge_ratio", v));
    ArrayNode remarks = node.putArray("remarks");
    e.remarks().forEach(remarks::add);
    return node;
  }

  private static ObjectNode measured(ObjectNode node, Measured m) {
    return node.put(CalibrationFile.PITCH, m.value())
        .put(CalibrationFile.UNCERTAINTY, m.standardUncertainty());
  }

  /**
   * Reads evidence and holds it against the pitch it belongs to.
   *
   * @throws IllegalArgumentException with what is wrong, for a sentence
   */
  static CalibrationEvidence read(JsonNode node, Measured pitch) {
    if (!node.isObject()) {
      throw new IllegalArgumentException("the member evidence is no object");
    }
    node.fieldNames()
        .forEachRemaining(
            n -> {
              if (!MEMBERS.contains(n)) {
                throw new IllegalArgumentException("the member evidence." + n + " is unknown");
              }
            });
    JsonNode ends = node.path("interval_95_um_per_px");
    if (!ends.isArray() || ends.size() != 2) {
      throw new IllegalArgumentException(
          "the member evidence.interval_95_um_per_px is no pair of numbers");
    }
    Interval interval = new Interval(finite(ends.get(0)), finite(ends.get(1)));
    if (!interval.contains(pitch.value())) {
      throw new IllegalArgumentException("the interval of 95 % does not hold the pitch itself");
    }
    List<Component> budget = new ArrayList<>();
    double squares = 0;
    for (JsonNode c : list(node, "budget")) {
      double contribution = number(c, "contribution_um_per_px");
      budget.add(
          new Component(
              text(c, "cause"),
              contribution,
              c.has("degrees_of_freedom")
                  ? number(c, "degrees_of_freedom")
                  : Double.POSITIVE_INFINITY));
      squares += contribution * contribution;
    }
    double u = pitch.standardUncertainty();
    if (!budget.isEmpty() && Math.abs(Math.sqrt(squares) - u) > ROUNDING * u) {
      throw new IllegalArgumentException(
          "the budget comes to " + Math.sqrt(squares) + " um/px, not to the uncertainty stated");
    }
    List<PhotoLine> photos = new ArrayList<>();
    for (JsonNode p : list(node, "photos")) {
      photos.add(
          new PhotoLine(
              text(p, "file"),
              text(p, "sha256"),
              measured(p),
              (int) number(p, "lines"),
              number(p, "rotation_deg"),
              number(p, "scatter_px")));
    }
    Optional<Axes> axes =
        node.has("axes")
            ? Optional.of(
                new Axes(
                    measured(node.path("axes").path("along_rows")),
                    measured(node.path("axes").path("along_columns"))))
            : Optional.empty();
    List<String> remarks = new ArrayList<>();
    list(node, "remarks").forEach(r -> remarks.add(r.asText()));
    return new CalibrationEvidence(
        interval,
        optional(node, "effective_degrees_of_freedom"),
        optional(node, "division_um"),
        node.has("division_tolerance")
            ? Optional.of(text(node, "division_tolerance"))
            : Optional.empty(),
        node.path("nominal").asBoolean(false),
        budget,
        photos,
        axes,
        optional(node, "birge_ratio"),
        remarks);
  }

  private static Measured measured(JsonNode node) {
    return new Measured(
        number(node, CalibrationFile.PITCH), number(node, CalibrationFile.UNCERTAINTY));
  }

  private static JsonNode list(JsonNode node, String name) {
    JsonNode list = node.path(name);
    if (!list.isArray()) {
      throw new IllegalArgumentException("the member evidence." + name + " is no list");
    }
    return list;
  }

  private static OptionalDouble optional(JsonNode node, String name) {
    return node.has(name) ? OptionalDouble.of(number(node, name)) : OptionalDouble.empty();
  }

  private static double number(JsonNode node, String name) {
    if (!node.path(name).isNumber()) {
      throw new IllegalArgumentException("the evidence lacks the number " + name);
    }
    return finite(node.path(name));
  }

  private static double finite(JsonNode node) {
    if (!node.isNumber() || !Double.isFinite(node.doubleValue())) {
      throw new IllegalArgumentException("a number of the evidence is not finite");
    }
    return node.doubleValue();
  }

  private static String text(JsonNode node, String name) {
    if (!node.path(name).isTextual()) {
      throw new IllegalArgumentException("the evidence lacks the text " + name);
    }
    return node.path(name).textValue();
  }
}
