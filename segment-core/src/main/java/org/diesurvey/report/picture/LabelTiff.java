package org.diesurvey.report.picture;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.zip.DeflaterOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.files.Disk;
import org.diesurvey.interchange.XmlText;
import org.diesurvey.survey.Survey;

/**
 * The label map as TIFF (revision 6.0; deflate as in Adobe's technical note 2 of 2002): one 8-bit
 * grey channel of class codes in the pixel frame of the photograph, in strips, with the pixel pitch
 * as resolution per centimetre. As OME-TIFF the description is OME-XML of the schema 2016-06 with
 * the pitch as physical size (names of its members from memory; no schema file was at hand).
 */
public final class LabelTiff {
  private static final int ROWS_PER_STRIP = 64;
  private static final int ASCII = 2;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int RATIONAL = 5;
  private static final double UM_PER_CM = 1e4;

  /** Strips are held packed until their places are known; offsets have 32 bit. */
  private static final long MOST_PIXELS = 1L << 30;

  private record Entry(int tag, int type, int count, ByteBuffer data) {}

  private final Survey survey;
  private final OptionalDouble umPerPx;
  private final List<Entry> entries = new ArrayList<>();

  private LabelTiff(Survey survey) {
    this.survey = survey;
    umPerPx =
        survey.scale().calibration().isPresent()
            ? OptionalDouble.of(survey.scale().calibration().get().umPerPx().value())
            : OptionalDouble.empty();
  }

  /** Writes the map with a description for people, or with OME-XML. */
  public static void write(Survey survey, boolean ome, Path file) throws IOException {
    new LabelTiff(survey).write(ome, file);
  }

  private void write(boolean ome, Path file) throws IOException {
    long pixels = (long) survey.photo().widthPx() * survey.photo().heightPx();
    if (pixels > MOST_PIXELS) {
      throw new DieInputException(
          Reason.PHOTO_TOO_LARGE,
          survey.photo().fileName()
              + ": its survey states "
              + pixels
              + " px, and label maps are written as TIFF up to "
              + MOST_PIXELS
              + " px; use label-map.png, or export outlines (geojson, svg, gdsii).");
    }
    List<byte[]> strips = strips();
    int width = survey.photo().widthPx();
    int height = survey.photo().heightPx();
    ByteBuffer offsets = buffer(4 * strips.size());
    ByteBuffer counts = buffer(4 * strips.size());
    int at = 8;
    for (byte[] strip : strips) {
      offsets.putInt(at);
      counts.putInt(strip.length);
      at = Math.addExact(at, strip.length);
    }
    number(256, LONG, width);
    number(257, LONG, height);
    number(258, SHORT, 8);
    number(259, SHORT, 8);
    number(262, SHORT, 1);
    text(270, ome ? omeXml() : description());
    entries.add(new Entry(273, LONG, strips.size(), offsets.flip()));
    number(277, SHORT, 1);
    number(278, LONG, ROWS_PER_STRIP);
    entries.add(new Entry(279, LONG, strips.size(), counts.flip()));
    resolution(282);
    resolution(283);
    number(296, SHORT, umPerPx.isPresent() ? 3 : 1);
    text(
        305,
        survey.method().software().name()
            + " "
            + survey.method().software().version()
            + Pictures.TIFF_MARK);
    int directoryAt = at + at % 2;
    try (var out = Disk.create(file)) {
      out.write(
          buffer(8)
              .put((byte) 'I')
              .put((byte) 'I')
              .putShort((short) 42)
              .putInt(directoryAt)
              .array());
      for (byte[] strip : strips) {
        out.write(strip);
      }
      out.write(new byte[at % 2]);
      out.write(directory(directoryAt));
    }
  }

  private List<byte[]> strips() throws IOException {
    int height = survey.photo().heightPx();
    MapRows rows = new MapRows(survey);
    List<byte[]> strips = new ArrayList<>();
    for (int top = 0; top < height; top += ROWS_PER_STRIP) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      try (DeflaterOutputStream packed = new DeflaterOutputStream(bytes)) {
        for (int y = top; y < Math.min(height, top + ROWS_PER_STRIP); y++) {
          rows.row(y);
          packed.write(rows.labels());
        }
      }
      strips.add(bytes.toByteArray());
    }
    return strips;
  }

  private byte[] directory(int at) {
    int dataAt = at + 2 + 12 * entries.size() + 4;
    ByteBuffer directory = buffer(dataAt - at);
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    directory.putShort((short) entries.size());
    for (Entry e : entries) {
      directory.putShort((short) e.tag).putShort((short) e.type).putInt(e.count);
      int length = e.data.remaining();
      if (length <= 4) {
        directory.put(e.data.duplicate()).put(new byte[4 - length]);
      } else {
        directory.putInt(dataAt + data.size());
        data.write(e.data.array(), 0, length);
        if (length % 2 == 1) {
          data.write(0);
        }
      }
    }
    directory.putInt(0);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.writeBytes(directory.array());
    all.writeBytes(data.toByteArray());
    return all.toByteArray();
  }

  private void number(int tag, int type, int value) {
    ByteBuffer b = buffer(type == SHORT ? 2 : 4);
    entries.add(
        new Entry(
            tag, type, 1, (type == SHORT ? b.putShort((short) value) : b.putInt(value)).flip()));
  }

  private void text(int tag, String text) {
    byte[] ascii =
        (text.replaceAll("[^\\x20-\\x7E]", "?") + "\0").getBytes(StandardCharsets.US_ASCII);
    entries.add(new Entry(tag, ASCII, ascii.length, ByteBuffer.wrap(ascii)));
  }

  /** Pixels per centimetre, as near as two 32-bit numbers come. */
  private void resolution(int tag) {
    long numerator = 1;
    long denominator = 1;
    if (umPerPx.isPresent()) {
      double perCm = UM_PER_CM / umPerPx.getAsDouble();
      denominator = (long) Math.min(1e6, Math.floor(4e9 / perCm));
      numerator = Math.round(perCm * denominator);
      long common =
          java.math.BigInteger.valueOf(numerator)
              .gcd(java.math.BigInteger.valueOf(denominator))
              .longValueExact();
      numerator /= common;
      denominator /= common;
    }
    ByteBuffer b = buffer(8).putInt((int) numerator).putInt((int) denominator);
    entries.add(new Entry(tag, RATIONAL, 1, b.flip()));
  }

  private String description() {
    return "Label map of "
        + survey.photo().fileName()
        + " (SHA-256 "
        + survey.photo().sha256()
        + "): 0 off-die, 1 memory array, 2 hard macro, 3 logic, 4 pad ring, 255 unclear";
  }

  private String omeXml() {
    String size =
        umPerPx.isEmpty()
            ? ""
            : String.format(
                Locale.ROOT,
                " PhysicalSizeX=\"%1$s\" PhysicalSizeXUnit=\"&#181;m\" PhysicalSizeY=\"%1$s\""
                    + " PhysicalSizeYUnit=\"&#181;m\"",
                Double.toString(umPerPx.getAsDouble()));
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"
        + "<OME xmlns=\"http://www.openmicroscopy.org/Schemas/OME/2016-06\""
        + " xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\""
        + " xsi:schemaLocation=\"http://www.openmicroscopy.org/Schemas/OME/2016-06"
        + " http://www.openmicroscopy.org/Schemas/OME/2016-06/ome.xsd\">"
        + "<Image ID=\"Image:0\" Name=\""
        + XmlText.escape("labels of " + survey.photo().fileName())
        + "\"><Description>"
        + XmlText.escape(description())
        + "</Description><Pixels ID=\"Pixels:0\" DimensionOrder=\"XYZCT\" Type=\"uint8\" SizeX=\""
        + survey.photo().widthPx()
        + "\" SizeY=\""
        + survey.photo().heightPx()
        + "\" SizeZ=\"1\" SizeC=\"1\" SizeT=\"1\" BigEndian=\"false\""
        + size
        + "><Channel ID=\"Channel:0:0\" SamplesPerPixel=\"1\"/>"
        + "<TiffData IFD=\"0\" PlaneCount=\"1\"/></Pixels></Image></OME>";
  }

  private static ByteBuffer buffer(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }
}
