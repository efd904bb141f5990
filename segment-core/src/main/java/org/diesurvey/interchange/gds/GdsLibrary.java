package org.diesurvey.interchange.gds;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.diesurvey.DieInputException;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.Refused;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Point;

/**
 * The structures of a GDSII stream, in database units.
 *
 * @param umPerUnit um in a database unit
 * @param structures by name, in the order of the file
 */
public record GdsLibrary(double umPerUnit, Map<String, Structure> structures) {

  /**
   * A closed shape.
   *
   * @param layer where it lies
   * @param ring corners
   * @param properties texts by number
   */
  record Shape(GdsLayer layer, List<Point> ring, Map<Integer, String> properties) {}

  /**
   * A structure placed in another, once or as an array.
   *
   * @param name of the structure placed
   * @param first map of its coordinates for the first copy
   * @param columns copies along the first step
   * @param rows copies along the second step
   * @param columnStep from one column to the next
   * @param rowStep from one row to the next
   */
  public record Placed(
      String name, PlaneTransform first, int columns, int rows, Point columnStep, Point rowStep) {}

  /** What a structure holds. */
  record Structure(List<Shape> shapes, List<Placed> placed) {}

  /**
   * @throws DieInputException DOCUMENT_INVALID where the stream is damaged or holds a path
   */
  static GdsLibrary read(byte[] bytes, String place) {
    GdsStream in = new GdsStream(bytes, place);
    double um = in.unitUm();
    Reader reader = new Reader(in, place);
    return new GdsLibrary(um, in.structures(reader::structure));
  }

  /** Reads the elements of a structure. */
  private static final class Reader {
    private final GdsStream in;
    private final String place;
    private int elements;

    Reader(GdsStream in, String place) {
      this.in = in;
      this.place = place;
    }

    Structure structure() {
      List<Shape> shapes = new ArrayList<>();
      List<Placed> placed = new ArrayList<>();
      for (GdsRecord r = in.next(); r != GdsRecord.ENDSTR; r = in.next()) {
        if (++elements > OutlineChecks.MOST_OUTLINES) {
          throw Refused.file(
              place, "there are more than " + OutlineChecks.MOST_OUTLINES + " elements");
        }
        switch (r) {
          case BOUNDARY, BOX -> shapes.add(shape());
          case SREF, AREF -> placed.add(GdsLibrary.placed(in, r == GdsRecord.AREF));
          case TEXT, NODE -> skip();
          case PATH ->
              throw Refused.file(
                  place,
                  "the stream holds a path, which is a line with a width; turn paths into polygons"
                      + " in the layout editor");
          default -> throw in.fault("has a record " + r + " where an element was expected");
        }
      }
      return new Structure(List.copyOf(shapes), List.copyOf(placed));
    }

    private void skip() {
      for (GdsRecord r = in.next(); r != GdsRecord.ENDEL; r = in.next()) {
        if (r == GdsRecord.ENDSTR || r == GdsRecord.ENDLIB) {
          throw in.fault("has an element without end");
        }
      }
    }

    private Shape shape() {
      int layer = -1;
      int datatype = -1;
      int property = 0;
      List<Point> ring = List.of();
      Map<Integer, String> properties = new HashMap<>();
      for (GdsRecord r = in.next(); r != GdsRecord.ENDEL; r = in.next()) {
        switch (r) {
          case LAYER -> layer = in.int16();
          case DATATYPE, BOXTYPE -> datatype = in.int16();
          case XY -> ring = points(in);
          case PROPATTR -> property = in.int16();
          case PROPVALUE -> properties.put(property, in.text());
          default -> throw in.fault("has a record " + r + " inside a boundary");
        }
      }
      List<Point> corners = OutlineShapes.distinct(ring);
      if (layer < 0 || datatype < 0 || corners.size() < 3) {
        throw in.fault("has a boundary without layer, datatype or corners");
      }
      return new Shape(new GdsLayer(layer, datatype), corners, Map.copyOf(properties));
    }
  }

  /** The rest of a reference, from behind its first record. */
  public static Placed placed(GdsStream in, boolean array) {
    String name = "";
    boolean mirrored = false;
    double scale = 1;
    double angle = 0;
    int columns = 1;
    int rows = 1;
    List<Point> at = List.of();
    for (GdsRecord r = in.next(); r != GdsRecord.ENDEL; r = in.next()) {
      switch (r) {
        case SNAME -> name = in.text();
        case STRANS -> mirrored = (in.int16() & 0x8000) != 0;
        case MAG -> scale = in.real();
        case ANGLE -> angle = in.real();
        case COLROW -> {
          columns = in.int16();
          rows = in.int16();
        }
        case XY -> at = points(in);
        case PROPATTR, PROPVALUE -> {}
        default -> throw in.fault("has a record " + r + " inside a reference");
      }
    }
    if (at.size() != (array ? 3 : 1) || columns < 1 || rows < 1 || !(scale > 0)) {
      throw in.fault("has a reference with wrong corners, columns, rows or size");
    }
    // Mirrored about the x axis first, then scaled and turned, then moved.
    boolean right = angle % 90 == 0;
    double cos = Math.cos(Math.toRadians(angle));
    double sin = Math.sin(Math.toRadians(angle));
    // Right angles keep edges upright, to the last bit.
    cos = scale * (right ? Math.rint(cos) : cos);
    sin = scale * (right ? Math.rint(sin) : sin);
    double flip = mirrored ? -1 : 1;
    Point o = at.get(0);
    return new Placed(
        name,
        new PlaneTransform(cos, -flip * sin, o.x(), sin, flip * cos, o.y()),
        columns,
        rows,
        array ? step(o, at.get(1), columns) : new Point(0, 0),
        array ? step(o, at.get(2), rows) : new Point(0, 0));
  }

  private static Point step(Point from, Point to, int n) {
    return new Point((to.x() - from.x()) / n, (to.y() - from.y()) / n);
  }

  private static List<Point> points(GdsStream in) {
    List<Point> all = new ArrayList<>();
    while (in.remaining() > 0) {
      double x = in.int32();
      all.add(new Point(x, in.int32()));
    }
    return all;
  }
}
