package org.diesurvey.scoring;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.pipeline.HandOutline;
import org.diesurvey.pipeline.HandOutlines;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * The memories and the logic of a truth file as outlines that a careful person would draw: every
 * copy of a macro on its own, its bit-cell arrays inside it, logic with the blocks cut out.
 */
public final class TrueOutlines {
  /** Clearance of blocks in open-layout logic where the truth file gives it in words only, um. */
  private static final double CLEARANCE_UM = 4.5;

  /** Nodes of the open processes, nm, for truth files that name no node. */
  private static final Map<String, Double> OPEN_PROCESSES =
      Map.of("SKY130", 130.0, "GF180MCU", 180.0, "IHP SG13G2", 130.0);

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final JsonNode root;

  private TrueOutlines(JsonNode root) {
    this.root = root;
  }

  /** Reads a truth file that is known to be sound. */
  public static TrueOutlines read(Path json) {
    try {
      return new TrueOutlines(JsonMapper.builder().build().readTree(Files.readAllBytes(json)));
    } catch (IOException e) {
      throw new UncheckedIOException(json + ": the truth file cannot be read", e);
    }
  }

  /** Process node, nm, where the file or the name of an open process says it. */
  public OptionalDouble nodeNm() {
    if (root.path("node_nm").isNumber()) {
      return OptionalDouble.of(root.get("node_nm").asDouble());
    }
    Double open = OPEN_PROCESSES.get(root.path("technology").asText());
    return open == null ? OptionalDouble.empty() : OptionalDouble.of(open);
  }

  /** Name of the process. */
  public String technology() {
    return root.path("technology").asText();
  }

  /** Pixel pitch, um. */
  public double umPerPx() {
    return root.path("um_per_px").asDouble();
  }

  /** True bit cells as the truth file words them, for a look at what lattices were found. */
  public List<String> cells() {
    List<String> all = new ArrayList<>();
    for (JsonNode b : root.path("inventory")) {
      if (b.path("kind").asText().equals("memory")) {
        all.add(b.path("bit_cell_um").asText(b.path("block").asText()));
      }
    }
    return all;
  }

  /** Bits of all memories; 0 if there are none. */
  public double bits() {
    return root.path("bits_total").asDouble();
  }

  /** NAND2-equivalents of all logic; 0 if there is none. */
  public double nand2() {
    return root.path("nand2_total").asDouble();
  }

  /** Area of the whole memory macros, um2. */
  public double macrosUm2() {
    return macros().stream().mapToDouble(Envelope::getArea).sum();
  }

  /** Area of the bit-cell arrays, um2; a memory without inner arrays is all array. */
  public double arraysUm2() {
    double sum = 0;
    for (Envelope m : macros()) {
      List<Envelope> inside = arraysIn(m);
      sum += inside.isEmpty() ? m.getArea() : inside.stream().mapToDouble(Envelope::getArea).sum();
    }
    return sum;
  }

  /** Area of the logic, um2. */
  public double logicUm2() {
    return logic().stream().mapToDouble(Polygon::getArea).sum();
  }

  /** The outlines in pixels of the photograph, bit-cell arrays with them. */
  public HandOutlines outlines() {
    List<HandOutline> all = new ArrayList<>();
    int n = 0;
    for (Envelope m : macros()) {
      List<Envelope> inside = arraysIn(m);
      List<Outline> arrays =
          (inside.isEmpty() ? List.of(m) : inside).stream().map(this::rectangle).toList();
      all.add(region("MEM" + ++n, DieClass.MEMORY_ARRAY, rectangle(m), arrays));
    }
    n = 0;
    for (Polygon p : logic()) {
      all.add(region("LOG" + ++n, DieClass.LOGIC, outline(p), List.of()));
    }
    return new HandOutlines("true outlines", "0".repeat(64), false, PhotoLink.UNKNOWN, all);
  }

  private static HandOutline region(String id, DieClass c, Outline outline, List<Outline> arrays) {
    return new HandOutline(
        id, c, Optional.empty(), outline, arrays, MemoryKind.STATIC, OptionalInt.empty());
  }

  /** Every copy of every memory macro. */
  private List<Envelope> macros() {
    List<Envelope> all = new ArrayList<>();
    for (JsonNode b : root.path("inventory")) {
      if (!b.path("kind").asText().equals("memory")) {
        continue;
      }
      int nx = Math.max(1, b.path("copies").path(0).asInt(1));
      int ny = Math.max(1, b.path("copies").path(1).asInt(1));
      double gap = b.path("gap_um").asDouble(0);
      double w = (b.path("w").asDouble() - (nx - 1) * gap) / nx;
      double h = (b.path("h").asDouble() - (ny - 1) * gap) / ny;
      for (int i = 0; i < nx * ny; i++) {
        double x = b.path("x").asDouble() + i % nx * (w + gap);
        double y = b.path("y").asDouble() + (double) (i / nx) * (h + gap);
        all.add(new Envelope(x, x + w, y, y + h));
      }
    }
    return all;
  }

  private List<Envelope> arraysIn(Envelope macro) {
    List<Envelope> inside = new ArrayList<>();
    for (JsonNode r : root.path("memory_arrays_inside_macros_um")) {
      double x = r.path(0).asDouble();
      double y = r.path(1).asDouble();
      Envelope e = new Envelope(x, x + r.path(2).asDouble(), y, y + r.path(3).asDouble());
      if (macro.contains(e.centre())) {
        inside.add(e);
      }
    }
    return inside;
  }

  private List<Polygon> logic() {
    List<Polygon> all = new ArrayList<>();
    for (JsonNode b : root.path("inventory")) {
      if (!b.path("kind").asText().equals("logic")) {
        continue;
      }
      Geometry area = polygon(b.path("polygon_um"));
      if (b.has("holes_um")) {
        for (JsonNode r : b.path("holes_um")) {
          double x = r.path(0).asDouble();
          double y = r.path(1).asDouble();
          area =
              area.difference(
                  FACTORY.toGeometry(
                      new Envelope(x, x + r.path(2).asDouble(), y, y + r.path(3).asDouble())));
        }
      } else {
        area = withoutBlocks(area);
      }
      for (int i = 0; i < area.getNumGeometries(); i++) {
        if (area.getGeometryN(i) instanceof Polygon p && p.getArea() > 1) {
          all.add(p);
        }
      }
    }
    return all;
  }

  private Geometry withoutBlocks(Geometry area) {
    Geometry left = area;
    for (JsonNode other : root.path("inventory")) {
      String kind = other.path("kind").asText();
      if (kind.equals("memory") || kind.equals("macro")) {
        Envelope e = polygon(other.path("polygon_um")).getEnvelopeInternal();
        e.expandBy(CLEARANCE_UM);
        left = left.difference(FACTORY.toGeometry(e));
      }
    }
    return left;
  }

  private static Polygon polygon(JsonNode corners) {
    List<Coordinate> c = new ArrayList<>();
    corners.forEach(p -> c.add(new Coordinate(p.path(0).asDouble(), p.path(1).asDouble())));
    c.add(c.get(0));
    return FACTORY.createPolygon(c.toArray(Coordinate[]::new));
  }

  private Outline rectangle(Envelope e) {
    return new Outline(
        List.of(
            px(e.getMinX(), e.getMinY()),
            px(e.getMaxX(), e.getMinY()),
            px(e.getMaxX(), e.getMaxY()),
            px(e.getMinX(), e.getMaxY())),
        List.of());
  }

  private Outline outline(Polygon p) {
    List<List<Point>> holes = new ArrayList<>();
    for (int i = 0; i < p.getNumInteriorRing(); i++) {
      holes.add(ring(p.getInteriorRingN(i)));
    }
    return new Outline(ring(p.getExteriorRing()), holes);
  }

  private List<Point> ring(LinearRing ring) {
    List<Point> out = new ArrayList<>();
    Coordinate[] c = ring.getCoordinates();
    for (int i = 0; i + 1 < c.length; i++) {
      out.add(px(c[i].x, c[i].y));
    }
    return out;
  }

  private Point px(double x, double y) {
    JsonNode m = root.path("um_to_px");
    return new Point(
        m.path(0).path(0).asDouble() * x
            + m.path(0).path(1).asDouble() * y
            + m.path(0).path(2).asDouble(),
        m.path(1).path(0).asDouble() * x
            + m.path(1).path(1).asDouble() * y
            + m.path(1).path(2).asDouble());
  }
}
