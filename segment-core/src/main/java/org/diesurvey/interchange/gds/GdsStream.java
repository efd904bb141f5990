package org.diesurvey.interchange.gds;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.diesurvey.DieInputException;
import org.diesurvey.interchange.Refused;

/** Walks over the records of a GDSII stream and refuses what is cut off or damaged. */
public final class GdsStream {
  private final ByteBuffer bytes;
  private final String place;
  private int recordAt;
  private GdsRecord record;
  private ByteBuffer data;

  public GdsStream(byte[] bytes, String place) {
    this.bytes = ByteBuffer.wrap(bytes);
    this.place = place;
  }

  /**
   * Goes to the next record that this program uses.
   *
   * @return its kind
   */
  public GdsRecord next() {
    do {
      recordAt = bytes.position();
      if (bytes.remaining() < 4) {
        throw fault("ends without its last record: the file is cut off");
      }
      int length = bytes.getShort() & 0xffff;
      int code = bytes.getShort() & 0xffff;
      if (length < 4 || length % 2 != 0 || !GdsRecord.known(code)) {
        throw fault("has a damaged record");
      }
      if (length - 4 > bytes.remaining()) {
        throw fault("ends inside a record: the file is cut off");
      }
      data = bytes.slice(bytes.position(), length - 4);
      bytes.position(bytes.position() + length - 4);
      record = GdsRecord.of(code);
    } while (record == null);
    return record;
  }

  /** The next record, which must be of a kind. */
  void expect(GdsRecord kind) {
    if (next() != kind) {
      throw fault("has a record " + record + " where " + kind + " was expected");
    }
  }

  /** Reads from the start to behind the units: the database unit, um. */
  public double unitUm() {
    expect(GdsRecord.HEADER);
    for (GdsRecord r = next(); r != GdsRecord.UNITS; r = next()) {
      if (r != GdsRecord.BGNLIB && r != GdsRecord.LIBNAME) {
        throw fault("has a record " + r + " before its units");
      }
    }
    real();
    double um = real() * 1e6;
    if (!(um > 0 && um < 1e6)) {
      throw fault("has a database unit of " + um + " um");
    }
    return um;
  }

  /**
   * Reads the structures behind the units, in their order.
   *
   * @param body reads one from behind its name to its end
   */
  public <T> Map<String, T> structures(Supplier<T> body) {
    Map<String, T> all = new LinkedHashMap<>();
    for (GdsRecord r = next(); r != GdsRecord.ENDLIB; r = next()) {
      if (r != GdsRecord.BGNSTR) {
        throw fault("has a record " + r + " outside a structure");
      }
      expect(GdsRecord.STRNAME);
      String name = text();
      if (all.put(name, body.get()) != null) {
        throw fault("has two structures '" + Refused.quoted(name) + "'");
      }
    }
    return all;
  }

  public int int16() {
    return read(() -> (int) data.getShort());
  }

  public int int32() {
    return read(data::getInt);
  }

  double real() {
    return read(() -> GdsReal.value(data.getLong()));
  }

  String text() {
    byte[] b = new byte[data.remaining()];
    data.get(b);
    int n = b.length;
    while (n > 0 && b[n - 1] == 0) {
      n--;
    }
    return new String(b, 0, n, StandardCharsets.US_ASCII);
  }

  /** Bytes of the record that were not read yet. */
  public int remaining() {
    return data.remaining();
  }

  private interface Reading<T> {
    T get();
  }

  private <T> T read(Reading<T> reading) {
    try {
      return reading.get();
    } catch (BufferUnderflowException e) {
      throw fault("has a record " + record + " that is too short");
    }
  }

  /** The refusal of the stream at the record read last. */
  public DieInputException fault(String what) {
    return Refused.file(
        place, "the GDSII stream " + what + " (byte " + recordAt + "); export it again");
  }
}
