package org.diesurvey.photo;

/**
 * How a TIFF writes a pixel, as far as it is read.
 *
 * @param width columns
 * @param height rows
 * @param samples 1 grey, 2 grey with alpha, 3 RGB, 4 RGB with alpha
 * @param bits 8 or 16; 1, 2 and 4 only where the picture is decoded as a whole
 * @param planar each sample in strips or tiles of its own
 * @param compression 1 none, 5 LZW, 7 JPEG, 8 or 32946 deflate, 32773 PackBits, 50000 Zstandard
 * @param differences rows hold differences (predictor 2)
 * @param whiteIsZero grey runs from white to black
 * @param colours what samples stand for
 */
record TiffForm(
    int width,
    int height,
    int samples,
    int bits,
    boolean planar,
    int compression,
    boolean differences,
    boolean whiteIsZero,
    Colours colours) {
  static final int NONE = 1;
  static final int LZW = 5;
  static final int JPEG = 7;
  static final int DEFLATE = 8;
  static final int DEFLATE_OLD = 32946;
  static final int PACK_BITS = 32773;
  static final int ZSTD = 50000;

  /** What samples stand for. */
  enum Colours {
    GREY_OR_RGB,
    LUMA_CHROMA,
    INKS,
    PALETTE
  }

  /** Samples of a pixel in the photograph. */
  int shownSamples() {
    return colours == Colours.INKS || colours == Colours.PALETTE ? 3 : samples;
  }

  /** Whether only the platform's own reader decodes such samples. */
  boolean whole() {
    return colours == Colours.PALETTE || bits < 8;
  }

  /** Reads and checks the form; what is not read is refused by name. */
  static TiffForm read(TiffDirectory tags, PhotoFile file, ReadLimits limits) {
    Refusals refusals = file.refusals();
    if (!tags.has(TiffTag.IMAGE_WIDTH) || !tags.has(TiffTag.IMAGE_LENGTH)) {
      throw refusals.damaged("a TIFF without a width or height");
    }
    long width = tags.number(TiffTag.IMAGE_WIDTH, 0);
    long height = tags.number(TiffTag.IMAGE_LENGTH, 0);
    int compression = compression(tags, refusals);
    int samples = samples(tags, compression, refusals);
    int bits = bits(tags, refusals);
    refusals.checkSize(width, height, file.size(), limits);
    long predictor = tags.number(TiffTag.PREDICTOR, 1);
    if (predictor != 1 && predictor != 2) {
      throw refusals.unsupported("TIFF predictor " + predictor);
    }
    // The predictor belongs to LZW and deflate only; others ignore it (TIFF 6.0, section 14).
    boolean differences =
        predictor == 2
            && (compression == LZW
                || compression == DEFLATE
                || compression == DEFLATE_OLD
                || compression == ZSTD);
    long planar = tags.number(TiffTag.PLANAR_CONFIGURATION, 1);
    if (planar != 1 && planar != 2) {
      throw refusals.damaged("TIFF planar configuration " + planar);
    }
    return new TiffForm(
        (int) width,
        (int) height,
        samples,
        bits,
        planar == 2 && samples > 1,
        compression,
        differences,
        tags.number(TiffTag.PHOTOMETRIC, 1) == 0,
        colours(tags));
  }

  private static Colours colours(TiffDirectory tags) {
    return switch ((int) tags.number(TiffTag.PHOTOMETRIC, 1)) {
      case 3 -> Colours.PALETTE;
      case 5 -> Colours.INKS;
      case 6 -> Colours.LUMA_CHROMA;
      default -> Colours.GREY_OR_RGB;
    };
  }

  private static int compression(TiffDirectory tags, Refusals refusals) {
    long code = tags.number(TiffTag.COMPRESSION, NONE);
    boolean known =
        code == NONE
            || code == LZW
            || code == JPEG
            || code == DEFLATE
            || code == DEFLATE_OLD
            || code == PACK_BITS
            || code == ZSTD;
    if (!known) {
      throw refusals.unsupported("a TIFF with compression code " + code);
    }
    if (tags.number(TiffTag.FILL_ORDER, 1) != 1 && code != JPEG) {
      throw refusals.unsupported("a TIFF with reversed bits");
    }
    return (int) code;
  }

  private static int samples(TiffDirectory tags, int compression, Refusals refusals) {
    long samples = tags.number(TiffTag.SAMPLES_PER_PIXEL, 1);
    long photometric = tags.number(TiffTag.PHOTOMETRIC, samples >= 3 ? 2 : 1);
    boolean grey = photometric == 0 || photometric == 1;
    boolean colour = photometric == 2 || photometric == 6 && compression == JPEG;
    if (photometric == 3 && samples == 1 || photometric == 5 && samples == 4) {
      if (photometric == 5 && compression == JPEG) {
        throw refusals.unsupported("CMYK colours in JPEG");
      }
      return (int) samples;
    }
    if (photometric == 6 && !colour) {
      throw refusals.unsupported("raw YCbCr colours");
    }
    if (!grey && !colour) {
      throw refusals.unsupported("a TIFF with photometric code " + photometric);
    }
    boolean fits = grey ? samples == 1 || samples == 2 : samples == 3 || samples == 4;
    if (!fits) {
      throw refusals.unsupported(
          (grey ? "grey" : "colour") + " with " + samples + " samples per pixel");
    }
    return (int) samples;
  }

  private static int bits(TiffDirectory tags, Refusals refusals) {
    for (long format : tags.numbers(TiffTag.SAMPLE_FORMAT)) {
      // 4 is "undefined", which readers take for whole numbers (TIFF 6.0, section 19).
      if (format != 1 && format != 4) {
        throw refusals.unsupported(format == 3 ? "floating-point samples" : "signed samples");
      }
    }
    long[] bits = tags.numbers(TiffTag.BITS_PER_SAMPLE);
    long first = bits.length == 0 ? 1 : bits[0];
    for (long other : bits) {
      if (other != first) {
        throw refusals.unsupported("samples of different sizes");
      }
    }
    boolean few = bits.length <= 1 && (first == 1 || first == 2 || first == 4);
    if (first != 8 && first != 16 && !few) {
      throw refusals.unsupported(first + "-bit samples");
    }
    return (int) first;
  }
}
