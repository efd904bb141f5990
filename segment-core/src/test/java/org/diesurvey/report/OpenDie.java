package org.diesurvey.report;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.imageio.ImageIO;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Software;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyMethod;
import org.diesurvey.survey.SurveyRegion;

/**
 * A survey made by hand from the sidecar of a die of the open set (see its SOURCES.md): what a
 * perfect survey of that photograph would say. Numbers of confidence and periods are invented.
 */
final class OpenDie {
  private static final Map<String, DieClass> KINDS =
      Map.of(
          "memory",
          DieClass.MEMORY_ARRAY,
          "macro",
          DieClass.HARD_MACRO,
          "logic",
          DieClass.LOGIC,
          "pad",
          DieClass.PAD_RING);

  private final JsonNode sidecar;
  private final Path folder;

  private OpenDie(JsonNode sidecar, Path folder) {
    this.sidecar = sidecar;
    this.folder = folder;
  }

  /** Reads a sidecar; the calling test is skipped where the open set is absent. */
  static OpenDie named(String name) throws IOException {
    Path at = Path.of(System.getProperty("user.dir")).toAbsolutePath();
    while (at != null && !Files.isDirectory(at.resolve("shared/data/open-dies"))) {
      at = at.getParent();
    }
    assumeTrue(at != null, "skipped: ../shared/data/open-dies is not here");
    Path folder = at.resolve("shared/data/open-dies");
    return new OpenDie(
        new ObjectMapper().readTree(folder.resolve(name + ".json").toFile()), folder);
  }

  PixelSource photo() throws IOException {
    return new ImageSource(ImageIO.read(folder.resolve(sidecar.get("image").asText()).toFile()));
  }

  Path truth() {
    return folder.resolve(sidecar.get("labels").asText());
  }

  Survey survey(boolean scaled) {
    double pitch = sidecar.get("um_per_px").asDouble();
    double u = 0.004;
    List<Point> die = ring(sidecar.get("die_polygon_px"));
    List<Point> corners = List.of(die.get(3), die.get(2), die.get(1), die.get(0));
    double w = sidecar.get("die_um").get(0).asDouble() / 1000;
    double h = sidecar.get("die_um").get(1).asDouble() / 1000;
    double dieMm2 = w * h;
    Map<DieClass, Integer> counts = new EnumMap<>(DieClass.class);
    Map<DieClass, Double> areas = new EnumMap<>(DieClass.class);
    List<SurveyRegion> regions = new ArrayList<>();
    for (DieClass c :
        List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING)) {
      for (JsonNode block : sidecar.get("inventory")) {
        if (KINDS.get(block.get("kind").asText()) != c) {
          continue;
        }
        int n = counts.merge(c, 1, Integer::sum);
        Outline px = outline(block, "px");
        double areaPx = area(px);
        areas.merge(c, areaPx * pitch * pitch / 1e6, Double::sum);
        regions.add(region(c.shortName() + n, c, px, areaPx, dieMm2, pitch, u, scaled, block));
      }
    }
    List<ClassTotal> totals = new ArrayList<>();
    areas.forEach(
        (c, a) ->
            totals.add(
                new ClassTotal(
                    c,
                    Optional.empty(),
                    counts.get(c),
                    scaled ? Optional.of(MeasuredArea.of(a, 0, 2 * u * a)) : Optional.empty(),
                    a / dieMm2)));
    double rest = dieMm2 - areas.values().stream().mapToDouble(a -> a).sum();
    totals.add(
        new ClassTotal(
            DieClass.UNCLEAR,
            Optional.of(UnclearReason.EMPTY),
            0,
            scaled ? Optional.of(MeasuredArea.of(rest, 0, 2 * u * rest)) : Optional.empty(),
            rest / dieMm2));
    return new Survey(
        new PhotoInfo(
            sidecar.get("image").asText(),
            "ab".repeat(32),
            2_043_875,
            "JPEG",
            sidecar.get("width_px").asInt(),
            sidecar.get("height_px").asInt(),
            8,
            3,
            Optional.empty()),
        new SurveyMethod(
            new Software("diesurvey", "0.1.0", "drawn-dies 1", "0".repeat(64)),
            1,
            OptionalDouble.of(130),
            16),
        new ScaleRecord(
            scaled ? Optional.of(Calibration.ofPixelPitch(pitch, u * pitch)) : Optional.empty(),
            scaled
                ? Optional.empty()
                : Optional.of(
                    new ScaleRecord.InferredRange(
                        0.3, 0.8, "Bond pads are taken to be 50 to 120 um wide."))),
        new DieFrame(
            true,
            corners,
            sidecar.get("rotation_deg").asDouble(),
            scaled ? Optional.of(new Measured(w, u * w)) : Optional.empty(),
            scaled ? Optional.of(new Measured(h, u * h)) : Optional.empty(),
            scaled ? Optional.of(new Measured(dieMm2, 2 * u * dieMm2)) : Optional.empty(),
            dieMm2 * 1e6 / pitch / pitch),
        new Preparation(List.of(), 1, 1, Optional.empty(), List.of(), 0.012),
        regions,
        totals,
        scaled
            ? List.of(
                new Notice(
                    "low-confidence",
                    "1 region has a confidence below 70 %.",
                    "Photograph it at a finer pixel pitch, or check it by eye."))
            : List.of(
                new Notice(
                    "no-scale",
                    "No scale was given, so areas in mm\u00b2 are refused.",
                    "State the width of one pixel on the die with --um-per-px, or give a"
                        + " calibration file.")),
        Optional.empty());
  }

  private SurveyRegion region(
      String id,
      DieClass c,
      Outline px,
      double areaPx,
      double dieMm2,
      double pitch,
      double u,
      boolean scaled,
      JsonNode block) {
    double mm2 = areaPx * pitch * pitch / 1e6;
    boolean memory = c == DieClass.MEMORY_ARRAY;
    List<Outline> arraysPx = new ArrayList<>();
    List<Outline> arraysUm = new ArrayList<>();
    if (memory) {
      for (JsonNode a : sidecar.get("memory_arrays_inside_macros_um")) {
        Outline um = box(a);
        if (inside(um, outline(block, "um"))) {
          arraysUm.add(scaled ? up(um) : um);
          arraysPx.add(toPx(um));
        }
      }
    }
    double confidence = memory ? 0.97 : c == DieClass.HARD_MACRO ? 0.66 : 0.91;
    Map<DieClass, Double> p = new EnumMap<>(DieClass.class);
    KINDS.values().forEach(k -> p.put(k, k == c ? confidence : (1 - confidence) / 3));
    return new SurveyRegion(
        id,
        new ClassVerdict(c, Optional.empty(), confidence, p),
        new RegionShape(px, arraysPx),
        scaled
            ? Optional.of(new RegionShape(up(outline(block, "um")), arraysUm))
            : Optional.empty(),
        new RegionArea(
            areaPx,
            scaled
                ? Optional.of(MeasuredArea.split(new Measured(mm2, 2.1 * u * mm2), u))
                : Optional.empty(),
            mm2 / dieMm2,
            Optional.empty()),
        memory
            ? List.of(
                new Period(new Measured(2.4, 0.01), 0, 0.82),
                new Period(new Measured(3.16, 0.02), 90, 0.7))
            : List.of(),
        Optional.empty(),
        List.of(),
        c == DieClass.PAD_RING
            ? Optional.of(new BondPadCount(sidecar.get("bond_pads").asInt(), Optional.empty()))
            : Optional.empty());
  }

  private static double area(Outline o) {
    return Math.abs(OutlineShapes.signedArea(o.shell()))
        - o.holes().stream().mapToDouble(h -> Math.abs(OutlineShapes.signedArea(h))).sum();
  }

  private static boolean inside(Outline inner, Outline outer) {
    double x0 = outer.shell().stream().mapToDouble(Point::x).min().getAsDouble();
    double x1 = outer.shell().stream().mapToDouble(Point::x).max().getAsDouble();
    double y0 = outer.shell().stream().mapToDouble(Point::y).min().getAsDouble();
    double y1 = outer.shell().stream().mapToDouble(Point::y).max().getAsDouble();
    return inner.shell().stream()
        .allMatch(p -> p.x() >= x0 && p.x() <= x1 && p.y() >= y0 && p.y() <= y1);
  }

  private static Outline box(JsonNode a) {
    double x = a.get(0).asDouble();
    double y = a.get(1).asDouble();
    double w = a.get(2).asDouble();
    double h = a.get(3).asDouble();
    return new Outline(
        List.of(new Point(x, y), new Point(x + w, y), new Point(x + w, y + h), new Point(x, y + h)),
        List.of());
  }

  /** The sidecar's um run down; the die frame's run up. */
  private Outline up(Outline down) {
    double h = sidecar.get("die_um").get(1).asDouble();
    return new Outline(
        down.shell().stream().map(p -> new Point(p.x(), h - p.y())).toList(),
        down.holes().stream()
            .map(r -> r.stream().map(p -> new Point(p.x(), h - p.y())).toList())
            .toList());
  }

  private Outline toPx(Outline um) {
    JsonNode t = sidecar.get("um_to_px");
    return new Outline(
        um.shell().stream().map(p -> new Point(row(t.get(0), p), row(t.get(1), p))).toList(),
        List.of());
  }

  private static double row(JsonNode r, Point p) {
    return r.get(0).asDouble() * p.x() + r.get(1).asDouble() * p.y() + r.get(2).asDouble();
  }

  private Outline outline(JsonNode block, String unit) {
    List<List<Point>> all = new ArrayList<>();
    if (block.get("kind").asText().equals("logic")) {
      for (JsonNode other : sidecar.get("inventory")) {
        if (other.get("kind").asText().startsWith("m")) {
          all.add(ring(other.get("polygon_" + unit)));
        }
      }
    }
    if (block.has("hole_" + unit)) {
      all.add(ring(block.get("hole_" + unit)));
    }
    return new Outline(ring(block.get("polygon_" + unit)), all);
  }

  private static List<Point> ring(JsonNode ring) {
    List<Point> corners = new ArrayList<>();
    ring.forEach(p -> corners.add(new Point(p.get(0).asDouble(), p.get(1).asDouble())));
    return corners;
  }
}
