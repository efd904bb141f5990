package org.diesurvey.interchange.gds;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;

/** Writes small GDSII streams record by record; database unit 1 nm. */
public final class GdsBytes {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();

  public GdsBytes() {
    shorts(GdsRecord.HEADER, 600);
    shorts(GdsRecord.BGNLIB, new int[12]);
    text(GdsRecord.LIBNAME, "LIB");
    data(
        GdsRecord.UNITS,
        ByteBuffer.allocate(16).putLong(GdsReal.bits(1e-3)).putLong(GdsReal.bits(1e-9)).array());
  }

  public GdsBytes cell(String name) {
    shorts(GdsRecord.BGNSTR, new int[12]);
    return text(GdsRecord.STRNAME, name);
  }

  public GdsBytes end() {
    return data(GdsRecord.ENDSTR);
  }

  public byte[] bytes() {
    data(GdsRecord.ENDLIB);
    return out.toByteArray();
  }

  /** A rectangle, nm. */
  public GdsBytes rectangle(int layer, int datatype, int x0, int y0, int x1, int y1) {
    data(GdsRecord.BOUNDARY);
    shorts(GdsRecord.LAYER, layer);
    shorts(GdsRecord.DATATYPE, datatype);
    ints(GdsRecord.XY, x0, y0, x1, y0, x1, y1, x0, y1, x0, y0);
    return data(GdsRecord.ENDEL);
  }

  /** A path, nm. */
  GdsBytes path(int layer, int type, int width, int... xy) {
    data(GdsRecord.PATH);
    shorts(GdsRecord.LAYER, layer);
    shorts(GdsRecord.DATATYPE, 0);
    shorts(GdsRecord.PATHTYPE, type);
    ints(GdsRecord.WIDTH, width);
    ints(GdsRecord.XY, xy);
    return data(GdsRecord.ENDEL);
  }

  /** A structure placed once, nm. */
  public GdsBytes place(String name, int x, int y) {
    data(GdsRecord.SREF);
    text(GdsRecord.SNAME, name);
    ints(GdsRecord.XY, x, y);
    return data(GdsRecord.ENDEL);
  }

  /** A structure mirrored about the x axis, made larger, turned, then moved, nm. */
  public GdsBytes place(String name, boolean mirrored, double scale, double degrees, int x, int y) {
    data(GdsRecord.SREF);
    text(GdsRecord.SNAME, name);
    shorts(GdsRecord.STRANS, mirrored ? 0x8000 : 0);
    data(GdsRecord.MAG, ByteBuffer.allocate(8).putLong(GdsReal.bits(scale)).array());
    data(GdsRecord.ANGLE, ByteBuffer.allocate(8).putLong(GdsReal.bits(degrees)).array());
    ints(GdsRecord.XY, x, y);
    return data(GdsRecord.ENDEL);
  }

  /** An array along the axes, nm. */
  public GdsBytes array(String name, int x, int y, int columns, int rows, int stepX, int stepY) {
    data(GdsRecord.AREF);
    text(GdsRecord.SNAME, name);
    shorts(GdsRecord.COLROW, columns, rows);
    ints(GdsRecord.XY, x, y, x + columns * stepX, y, x, y + rows * stepY);
    return data(GdsRecord.ENDEL);
  }

  private GdsBytes shorts(GdsRecord kind, int... values) {
    ByteBuffer b = ByteBuffer.allocate(2 * values.length);
    for (int v : values) {
      b.putShort((short) v);
    }
    return data(kind, b.array());
  }

  private GdsBytes ints(GdsRecord kind, int... values) {
    ByteBuffer b = ByteBuffer.allocate(4 * values.length);
    for (int v : values) {
      b.putInt(v);
    }
    return data(kind, b.array());
  }

  private GdsBytes text(GdsRecord kind, String text) {
    byte[] b = text.getBytes(StandardCharsets.US_ASCII);
    return data(kind, java.util.Arrays.copyOf(b, b.length + b.length % 2));
  }

  private GdsBytes data(GdsRecord kind, byte... bytes) {
    out.writeBytes(
        ByteBuffer.allocate(4)
            .putShort((short) (bytes.length + 4))
            .putShort((short) kind.code())
            .array());
    out.writeBytes(bytes);
    return this;
  }
}
