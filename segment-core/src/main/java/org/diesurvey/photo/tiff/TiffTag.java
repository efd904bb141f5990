package org.diesurvey.photo.tiff;

/** The TIFF tags that are read (TIFF 6.0, appendix A) and the codes that matter. */
public final class TiffTag {
  public static final int NEW_SUBFILE_TYPE = 254;
  static final int IMAGE_WIDTH = 256;
  static final int IMAGE_LENGTH = 257;
  static final int BITS_PER_SAMPLE = 258;
  public static final int COMPRESSION = 259;
  static final int PHOTOMETRIC = 262;
  static final int FILL_ORDER = 266;
  public static final int IMAGE_DESCRIPTION = 270;
  public static final int ORIENTATION = 274;
  static final int STRIP_OFFSETS = 273;
  static final int SAMPLES_PER_PIXEL = 277;
  static final int ROWS_PER_STRIP = 278;
  static final int STRIP_BYTE_COUNTS = 279;
  public static final int X_RESOLUTION = 282;
  static final int Y_RESOLUTION = 283;
  static final int PLANAR_CONFIGURATION = 284;
  public static final int RESOLUTION_UNIT = 296;
  static final int PREDICTOR = 317;
  static final int TILE_WIDTH = 322;
  static final int TILE_LENGTH = 323;
  static final int TILE_OFFSETS = 324;
  static final int TILE_BYTE_COUNTS = 325;
  static final int COLOR_MAP = 320;
  public static final int JPEG_TABLES = 347;
  static final int SAMPLE_FORMAT = 339;

  private TiffTag() {}
}
