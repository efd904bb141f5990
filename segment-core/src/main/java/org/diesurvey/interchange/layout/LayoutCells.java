package org.diesurvey.interchange.layout;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.interchange.Refused;
import org.diesurvey.interchange.gds.GdsLibrary;
import org.diesurvey.interchange.gds.GdsRecord;
import org.diesurvey.interchange.gds.GdsStream;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Point;

/**
 * The structures of a layout with the shapes that a layer map asks for, in database units. Texts,
 * nodes and all other layers are passed over.
 */
final class LayoutCells {
  /** Shapes and references of a stream, at most. */
  private static final int MOST_ELEMENTS = 20_000_000;

  private final double umPerUnit;
  private final Map<String, Cell> cells;
  private final String place;
  private final Map<BoxKey, Optional<Box>> boxes = new HashMap<>();
  private final Set<String> open = new LinkedHashSet<>();

  private LayoutCells(double umPerUnit, Map<String, Cell> cells, String place) {
    this.umPerUnit = umPerUnit;
    this.cells = cells;
    this.place = place;
  }

  /** A closed shape: the bits that it sets, and its corners in database units. */
  static final class Shape {
    final int bits;
    final double[] xs;
    final double[] ys;

    Shape(int bits, double[] xs, double[] ys) {
      this.bits = bits;
      this.xs = xs;
      this.ys = ys;
    }
  }

  private record BoxKey(String name, int bits) {}

  /** What a structure holds. */
  record Cell(List<Shape> shapes, List<GdsLibrary.Placed> placed) {}

  /** Smallest rectangle around something. */
  record Box(double x0, double y0, double x1, double y1) {
    Box with(Box o) {
      return new Box(
          Math.min(x0, o.x0), Math.min(y0, o.y0), Math.max(x1, o.x1), Math.max(y1, o.y1));
    }

    Box mapped(PlaneTransform map) {
      Box out = null;
      for (int k = 0; k < 4; k++) {
        double x = (k & 1) == 0 ? x0 : x1;
        double y = (k & 2) == 0 ? y0 : y1;
        double px = map.x(x, y);
        double py = map.y(x, y);
        Box corner = new Box(px, py, px, py);
        out = out == null ? corner : out.with(corner);
      }
      return out;
    }

    boolean meets(Box o) {
      return x0 <= o.x1 && o.x0 <= x1 && y0 <= o.y1 && o.y0 <= y1;
    }
  }

  /**
   * @throws org.diesurvey.DieInputException DOCUMENT_INVALID where the stream is damaged
   */
  static LayoutCells read(byte[] bytes, LayoutLayers layers, String place) {
    GdsStream in = new GdsStream(bytes, place);
    double um = in.unitUm();
    Elements elements = new Elements(in, layers, place);
    return new LayoutCells(um, in.structures(elements::cell), place);
  }

  private static final class Elements {
    private final GdsStream in;
    private final LayoutLayers layers;
    private final String place;
    private int elements;

    Elements(GdsStream in, LayoutLayers layers, String place) {
      this.in = in;
      this.layers = layers;
      this.place = place;
    }

    Cell cell() {
      List<Shape> shapes = new ArrayList<>();
      List<GdsLibrary.Placed> placed = new ArrayList<>();
      for (GdsRecord r = in.next(); r != GdsRecord.ENDSTR; r = in.next()) {
        if (++elements > MOST_ELEMENTS) {
          throw Refused.file(
              place, "the layout has more than " + MOST_ELEMENTS + " shapes; export a part of it");
        }
        switch (r) {
          case BOUNDARY, BOX, PATH -> shape(r == GdsRecord.PATH).ifPresent(shapes::add);
          case SREF, AREF -> placed.add(GdsLibrary.placed(in, r == GdsRecord.AREF));
          case TEXT, NODE -> skip();
          default -> throw in.fault("has a record " + r + " where an element was expected");
        }
      }
      return new Cell(List.copyOf(shapes), List.copyOf(placed));
    }

    private void skip() {
      for (GdsRecord r = in.next(); r != GdsRecord.ENDEL; r = in.next()) {
        if (r == GdsRecord.ENDSTR || r == GdsRecord.ENDLIB) {
          throw in.fault("has an element without end");
        }
      }
    }

    private Optional<Shape> shape(boolean path) {
      int layer = -1;
      int datatype = -1;
      int ends = 0;
      double width = 0;
      double begin = 0;
      double end = 0;
      double[] xs = {};
      double[] ys = {};
      for (GdsRecord r = in.next(); r != GdsRecord.ENDEL; r = in.next()) {
        switch (r) {
          case LAYER -> layer = in.int16() & 0xffff;
          case DATATYPE, BOXTYPE -> datatype = in.int16() & 0xffff;
          // A negative width does not grow with its structure; few writers know that.
          case WIDTH -> width = Math.abs((double) in.int32());
          case PATHTYPE -> ends = in.int16();
          case BGNEXTN -> begin = in.int32();
          case ENDEXTN -> end = in.int32();
          case XY -> {
            int n = in.remaining() / 8;
            xs = new double[n];
            ys = new double[n];
            for (int i = 0; i < n; i++) {
              xs[i] = in.int32();
              ys[i] = in.int32();
            }
          }
          case PROPATTR, PROPVALUE -> {}
          default -> throw in.fault("has a record " + r + " inside a shape");
        }
      }
      if (layer < 0 || datatype < 0 || xs.length < (path ? 1 : 3)) {
        throw in.fault("has a shape without layer, datatype or corners");
      }
      int bits = layers.bits(layer, datatype);
      if (bits == 0 || path && width == 0) {
        return Optional.empty();
      }
      if (path) {
        LayoutPath line = LayoutPath.of(xs, ys, width / 2, ends, begin, end);
        return line.xs().length < 3
            ? Optional.empty()
            : Optional.of(new Shape(bits, line.xs(), line.ys()));
      }
      return Optional.of(new Shape(bits, xs, ys));
    }
  }

  double umPerUnit() {
    return umPerUnit;
  }

  Optional<Cell> cell(String name) {
    return Optional.ofNullable(cells.get(name));
  }

  /** The structures that no other places, in the order of the file. */
  List<String> tops() {
    Set<String> names = new LinkedHashSet<>(cells.keySet());
    cells.values().forEach(c -> c.placed().forEach(p -> names.remove(p.name())));
    return List.copyOf(names);
  }

  /** A structure that is placed. */
  Cell placed(String name) {
    Cell c = cells.get(name);
    if (c == null) {
      throw Refused.file(
          place, "the structure '" + Refused.quoted(name) + "' is placed but not in the stream");
    }
    return c;
  }

  /**
   * Around the shapes of a structure and of what it places; empty if there are none.
   *
   * @param bits any of which a shape must have
   */
  Optional<Box> box(String name, int bits) {
    BoxKey key = new BoxKey(name, bits);
    Optional<Box> known = boxes.get(key);
    if (known != null) {
      return known;
    }
    if (!open.add(name)) {
      throw Refused.file(
          place, "the structure '" + Refused.quoted(name) + "' places itself; correct the layout");
    }
    Box all = null;
    Cell cell = placed(name);
    for (Shape s : cell.shapes()) {
      for (int i = 0; (s.bits & bits) != 0 && i < s.xs.length; i++) {
        Box corner = new Box(s.xs[i], s.ys[i], s.xs[i], s.ys[i]);
        all = all == null ? corner : all.with(corner);
      }
    }
    for (GdsLibrary.Placed p : cell.placed()) {
      Optional<Box> inner = box(p.name(), bits);
      for (int k = 0; inner.isPresent() && k < 4; k++) {
        int column = (k & 1) == 0 ? 0 : p.columns() - 1;
        int row = (k & 2) == 0 ? 0 : p.rows() - 1;
        Box b = inner.get().mapped(copy(p, column, row));
        all = all == null ? b : all.with(b);
      }
    }
    open.remove(name);
    boxes.put(key, Optional.ofNullable(all));
    return boxes.get(key);
  }

  /** The map of one copy of a placed structure. */
  static PlaneTransform copy(GdsLibrary.Placed p, int column, int row) {
    Point c = p.columnStep();
    Point r = p.rowStep();
    PlaneTransform m = p.first();
    return new PlaneTransform(
        m.a(),
        m.b(),
        m.c() + column * c.x() + row * r.x(),
        m.d(),
        m.e(),
        m.f() + column * c.y() + row * r.y());
  }
}
