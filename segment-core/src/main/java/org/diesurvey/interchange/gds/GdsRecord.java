package org.diesurvey.interchange.gds;

/**
 * Kinds of records of the GDSII stream format, release 6, and the type of data that each carries
 * (Calma, "GDSII Stream Format Manual", 1987; numbers from memory, checked against an independent
 * reader by a test). Others are passed over or refused by the reader.
 */
public enum GdsRecord {
  HEADER(0x00, GdsRecord.INT16),
  BGNLIB(0x01, GdsRecord.INT16),
  LIBNAME(0x02, GdsRecord.TEXT_DATA),
  UNITS(0x03, GdsRecord.REAL64),
  ENDLIB(0x04, GdsRecord.NONE),
  BGNSTR(0x05, GdsRecord.INT16),
  STRNAME(0x06, GdsRecord.TEXT_DATA),
  ENDSTR(0x07, GdsRecord.NONE),
  BOUNDARY(0x08, GdsRecord.NONE),
  PATH(0x09, GdsRecord.NONE),
  SREF(0x0A, GdsRecord.NONE),
  AREF(0x0B, GdsRecord.NONE),
  TEXT(0x0C, GdsRecord.NONE),
  LAYER(0x0D, GdsRecord.INT16),
  DATATYPE(0x0E, GdsRecord.INT16),
  WIDTH(0x0F, GdsRecord.INT32),
  XY(0x10, GdsRecord.INT32),
  ENDEL(0x11, GdsRecord.NONE),
  SNAME(0x12, GdsRecord.TEXT_DATA),
  COLROW(0x13, GdsRecord.INT16),
  NODE(0x15, GdsRecord.NONE),
  STRANS(0x1A, GdsRecord.BITS),
  MAG(0x1B, GdsRecord.REAL64),
  ANGLE(0x1C, GdsRecord.REAL64),
  PATHTYPE(0x21, GdsRecord.INT16),
  PROPATTR(0x2B, GdsRecord.INT16),
  PROPVALUE(0x2C, GdsRecord.TEXT_DATA),
  BOX(0x2D, GdsRecord.NONE),
  BOXTYPE(0x2E, GdsRecord.INT16),
  BGNEXTN(0x30, GdsRecord.INT32),
  ENDEXTN(0x31, GdsRecord.INT32);

  private static final int NONE = 0;
  private static final int BITS = 1;
  private static final int INT16 = 2;
  private static final int INT32 = 3;
  private static final int REAL64 = 5;
  private static final int TEXT_DATA = 6;

  private static final int KINDS = 0x3C;

  private final int kind;
  private final int data;

  GdsRecord(int kind, int data) {
    this.kind = kind;
    this.data = data;
  }

  /** Kind and type of data as the two bytes behind the length. */
  int code() {
    return kind << 8 | data;
  }

  /** The record of a code, or null for one that this program does not use. */
  static GdsRecord of(int code) {
    for (GdsRecord r : values()) {
      if (r.code() == code) {
        return r;
      }
    }
    return null;
  }

  /** Whether the format knows records of this code's kind at all. */
  static boolean known(int code) {
    return code >> 8 < KINDS && (code & 0xff) <= TEXT_DATA;
  }
}
