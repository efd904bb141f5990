package org.diesurvey.interchange.gds;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.Refused;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.PrecisionModel;
import org.locationtech.jts.geom.TopologyException;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.precision.GeometryPrecisionReducer;

/**
 * Outlines as a GDSII stream at true scale: one structure, one layer for each class ({@link
 * GdsLayer}), user unit 1 um, database unit 1 nm. The format has no holes: an outline with holes is
 * cut through them into pieces that share edges, and so is one with more than {@value
 * #MOST_CORNERS} corners. Property 1 of a boundary is the id of its outline, so pieces can be told
 * to belong together; 2 is the memory of a bit-cell array, 3 the reason of an unclear area. On the
 * die's outline property 1 is the SHA-256 of the photograph and 2 its pitch in um/px.
 */
public final class GdsWriter {
  /** Corners of a boundary: with the first repeated they fill a record of 65532 bytes. */
  static final int MOST_CORNERS = 8190;

  /** The one structure. */
  static final String STRUCTURE = "DIE";

  static final int ID = 1;
  static final int PART_OF = 2;
  static final int REASON = 3;

  /** All properties of an element may have 128 bytes together, two of them for each number. */
  private static final int LONGEST_PROPERTY = 40;

  private static final double NM_PER_UM = 1000;
  private static final double FARTHEST_UM = Integer.MAX_VALUE / NM_PER_UM;
  private static final PrecisionModel NM = new PrecisionModel(1);

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 16);
  private final DataOutputStream out = new DataOutputStream(bytes);

  private GdsWriter() {}

  /**
   * The stream.
   *
   * @param set in um of the die
   * @param created the moment that the stream notes, UTC, to the second
   */
  public static byte[] bytes(OutlineSet set, Instant created) {
    if (set.frame() != OutlineFrame.DIE_UM) {
      throw new IllegalArgumentException("outlines in um of the die are needed");
    }
    try {
      GdsWriter w = new GdsWriter();
      w.library(set, created);
      return w.bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void library(OutlineSet set, Instant created) throws IOException {
    shorts(GdsRecord.HEADER, 600);
    moments(GdsRecord.BGNLIB, created);
    text(GdsRecord.LIBNAME, "DIESURVEY");
    begin(GdsRecord.UNITS, 16);
    out.writeLong(GdsReal.bits(1 / NM_PER_UM));
    out.writeLong(GdsReal.bits(1e-9));
    moments(GdsRecord.BGNSTR, created);
    text(GdsRecord.STRNAME, STRUCTURE);
    if (set.extent().isPresent()) {
      die(set.extent().get(), set.photo());
    }
    String place = "outlines of " + set.photo().fileName().orElse("the photograph");
    for (ClassedOutline o : set.outlines()) {
      requireReach(o, place);
      List<Polygon> parts = OutlineShapes.polygons(o.shape());
      if (parts.isEmpty()) {
        throw Refused.outline(place, o.id(), "crosses itself: correct it before it is exported");
      }
      for (Polygon p : parts) {
        for (Polygon piece : pieces(p, o.id(), place)) {
          boundary(GdsLayer.of(o), piece);
          property(ID, Optional.of(o.id()));
          property(PART_OF, o.partOf());
          property(REASON, o.reason());
          begin(GdsRecord.ENDEL, 0);
        }
      }
    }
    begin(GdsRecord.ENDSTR, 0);
    begin(GdsRecord.ENDLIB, 0);
  }

  private void die(Extent e, PhotoLink photo) throws IOException {
    Outline box =
        new Outline(
            List.of(
                new Point(0, 0),
                new Point(e.width(), 0),
                new Point(e.width(), e.height()),
                new Point(0, e.height())),
            List.of());
    requireReach(ClassedOutline.bitCells("die", "die", box), "die outline");
    boundary(GdsLayer.DIE, pieces(OutlineShapes.polygon(box), "die", "die outline").get(0));
    if (photo.sha256().isPresent()) {
      shorts(GdsRecord.PROPATTR, 1);
      text(GdsRecord.PROPVALUE, photo.sha256().get());
    }
    if (photo.umPerPx().isPresent()) {
      shorts(GdsRecord.PROPATTR, 2);
      text(GdsRecord.PROPVALUE, Double.toString(photo.umPerPx().getAsDouble()));
    }
    begin(GdsRecord.ENDEL, 0);
  }

  /** Pieces without holes, of few enough corners, on the grid of the database unit. */
  private static List<Polygon> pieces(Polygon um, String id, String place) {
    Geometry nm = AffineTransformation.scaleInstance(NM_PER_UM, NM_PER_UM).transform(um);
    List<Polygon> out = new ArrayList<>();
    try {
      cut(GeometryPrecisionReducer.reduce(nm, NM), out);
    } catch (TopologyException | IllegalArgumentException e) {
      throw Refused.outline(
          place, id, "touches or crosses itself so that it cannot be cut into pieces: redraw it");
    }
    return out;
  }

  /** Coordinates are whole numbers of nm with 32 bit: up to 2.147 m from the corner of the die. */
  private static void requireReach(ClassedOutline o, String place) {
    for (Point p : o.shape().shell()) {
      if (!(Math.abs(p.x()) <= FARTHEST_UM && Math.abs(p.y()) <= FARTHEST_UM)) {
        throw Refused.outline(
            place,
            o.id(),
            "has a corner at ("
                + Refused.number(p.x())
                + ", "
                + Refused.number(p.y())
                + ") um, farther out than a GDSII file of 1 nm reaches (2.147 m): check the scale");
      }
    }
  }

  private static void cut(Geometry g, List<Polygon> out) {
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (!(g.getGeometryN(i) instanceof Polygon p) || p.isEmpty()) {
        continue;
      }
      boolean hole = p.getNumInteriorRing() > 0;
      if (!hole && p.getNumPoints() - 1 <= MOST_CORNERS) {
        out.add(p);
        continue;
      }
      Envelope all = p.getEnvelopeInternal();
      Envelope at = hole ? p.getInteriorRingN(0).getEnvelopeInternal() : all;
      // A cut through the middle of a hole opens it; across the longer side keeps pieces stout.
      boolean upright = hole || all.getWidth() >= all.getHeight();
      double line = Math.rint(upright ? at.centre().x : at.centre().y);
      Envelope low =
          upright
              ? new Envelope(all.getMinX(), line, all.getMinY(), all.getMaxY())
              : new Envelope(all.getMinX(), all.getMaxX(), all.getMinY(), line);
      Envelope high =
          upright
              ? new Envelope(line, all.getMaxX(), all.getMinY(), all.getMaxY())
              : new Envelope(all.getMinX(), all.getMaxX(), line, all.getMaxY());
      cut(within(p, low), out);
      cut(within(p, high), out);
    }
  }

  private static Geometry within(Polygon p, Envelope part) {
    return OverlayNG.overlay(p, p.getFactory().toGeometry(part), OverlayNG.INTERSECTION, NM);
  }

  private void boundary(GdsLayer layer, Polygon p) throws IOException {
    begin(GdsRecord.BOUNDARY, 0);
    shorts(GdsRecord.LAYER, layer.layer());
    shorts(GdsRecord.DATATYPE, layer.datatype());
    Coordinate[] ring = p.getExteriorRing().getCoordinates();
    begin(GdsRecord.XY, 8 * ring.length);
    for (Coordinate c : ring) {
      out.writeInt(Math.toIntExact(Math.round(c.x)));
      out.writeInt(Math.toIntExact(Math.round(c.y)));
    }
  }

  private void property(int number, Optional<String> value) throws IOException {
    if (value.isPresent() && !value.get().isBlank()) {
      shorts(GdsRecord.PROPATTR, number);
      String ascii = value.get().replaceAll("[^\\x20-\\x7E]", "?");
      text(GdsRecord.PROPVALUE, ascii.substring(0, Math.min(LONGEST_PROPERTY, ascii.length())));
    }
  }

  private void begin(GdsRecord record, int length) throws IOException {
    out.writeShort(length + 4);
    out.writeShort(record.code());
  }

  private void shorts(GdsRecord record, int... values) throws IOException {
    begin(record, 2 * values.length);
    for (int v : values) {
      out.writeShort(v);
    }
  }

  /** Text of even length, filled up with a zero byte. */
  private void text(GdsRecord record, String text) throws IOException {
    byte[] b = text.getBytes(StandardCharsets.US_ASCII);
    begin(record, b.length + b.length % 2);
    out.write(b);
    if (b.length % 2 == 1) {
      out.write(0);
    }
  }

  /** Moment of the last change and of the last access. */
  private void moments(GdsRecord record, Instant moment) throws IOException {
    ZonedDateTime t = moment.atZone(ZoneOffset.UTC);
    int[] one = {
      t.getYear(), t.getMonthValue(), t.getDayOfMonth(), t.getHour(), t.getMinute(), t.getSecond()
    };
    begin(record, 24);
    for (int i = 0; i < 12; i++) {
      out.writeShort(one[i % 6]);
    }
  }
}
