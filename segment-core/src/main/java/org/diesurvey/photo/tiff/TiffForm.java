package org.diesurvey.photo.tiff;

import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;
import org.diesurvey.photo.file.SizeCheck;

/**
 * How a TIFF writes a pixel, as far as it is read.
 *
 * @param width columns
 * @param height rows
 * @param samples 1 grey, 2 grey with alpha, 3 RGB, 4 RGB with alpha
 * @param bits 8 or 16; 1, 2 and 4 only where the picture is decoded as a whole; 16, 32 and 64 in
 *     floating point
 * @param floating samples are floating-point numbers of IEEE 754
 * @param planar each sample in strips or tiles of its own
 * @param compression 1 none, 5 LZW, 7 JPEG, 8 or 32946 deflate, 32773 PackBits, 50000 Zstandard
 * @param predictor what rows hold instead of samples
 * @param whiteIsZero grey runs from white to black
 * @param colours what samples stand for
 */
public record TiffForm(
    int width,
    int height,
    int samples,
    int bits,
    boolean floating,
    boolean planar,
    int compression,
    Predictor predictor,
    boolean whiteIsZero,
    Colours colours) {
  public static final int NONE = 1;
  static final int LZW = 5;
  public static final int JPEG = 7;
  static final int DEFLATE = 8;
  static final int DEFLATE_OLD = 32946;
  static final int PACK_BITS = 32773;
  public static final int ZSTD = 50000;

  /** What samples stand for. */
  public enum Colours {
    GREY_OR_RGB,
    LUMA_CHROMA,
    INKS,
    PALETTE
  }

  /** What rows hold instead of samples. */
  enum Predictor {
    NONE,
    /** Differences of neighbours as whole numbers (TIFF 6.0, section 14). */
    WHOLE_NUMBERS,
    /** Differences of bytes, sorted by their weight (Adobe, TIFF Technical Note 3, 2005). */
    FLOATING_POINT
  }

  /** Bits of a sample in the photograph. */
  public int shownBits() {
    return floating ? 16 : Math.max(8, bits);
  }

  /** Which sample of a pixel is alpha; -1 if none is. */
  int alpha() {
    return samples == 2 ? 1 : samples == 4 && colours != Colours.INKS ? 3 : -1;
  }

  /** Samples of a pixel in the photograph. */
  public int shownSamples() {
    return colours == Colours.INKS || colours == Colours.PALETTE ? 3 : samples;
  }

  /** Whether only the platform's own reader decodes such samples. */
  public boolean whole() {
    return colours == Colours.PALETTE || bits < 8;
  }

  /** Reads and checks the form; what is not read is refused by name. */
  public static TiffForm read(TiffDirectory tags, PhotoFile file, SizeCheck sizes) {
    Refusals refusals = file.refusals();
    if (!tags.has(TiffTag.IMAGE_WIDTH) || !tags.has(TiffTag.IMAGE_LENGTH)) {
      throw refusals.damaged("a TIFF without a width or height");
    }
    long width = tags.number(TiffTag.IMAGE_WIDTH, 0);
    long height = tags.number(TiffTag.IMAGE_LENGTH, 0);
    int compression = compression(tags, refusals);
    int samples = samples(tags, compression, refusals);
    boolean floating = floating(tags, refusals);
    int bits = bits(tags, floating, refusals);
    Colours colours = colours(tags);
    if (floating && (compression == JPEG || colours != Colours.GREY_OR_RGB)) {
      throw refusals.unsupported("floating-point samples that are neither grey nor RGB");
    }
    sizes.checkSize(width, height);
    long planar = tags.number(TiffTag.PLANAR_CONFIGURATION, 1);
    if (planar != 1 && planar != 2) {
      throw refusals.damaged("TIFF planar configuration " + planar);
    }
    return new TiffForm(
        (int) width,
        (int) height,
        samples,
        bits,
        floating,
        planar == 2 && samples > 1,
        compression,
        predictor(tags, compression, floating, refusals),
        tags.number(TiffTag.PHOTOMETRIC, 1) == 0,
        colours);
  }

  private static Predictor predictor(
      TiffDirectory tags, int compression, boolean floating, Refusals refusals) {
    long code = tags.number(TiffTag.PREDICTOR, 1);
    if (code < 1 || code > (floating ? 3 : 2)) {
      throw refusals.unsupported("TIFF predictor " + code);
    }
    // The predictor belongs to LZW and deflate only; others ignore it (TIFF 6.0, section 14).
    boolean used =
        compression == LZW
            || compression == DEFLATE
            || compression == DEFLATE_OLD
            || compression == ZSTD;
    return used ? Predictor.values()[(int) code - 1] : Predictor.NONE;
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

  private static boolean floating(TiffDirectory tags, Refusals refusals) {
    long[] formats = tags.numbers(TiffTag.SAMPLE_FORMAT);
    for (long format : formats) {
      // 4 is "undefined", which readers take for whole numbers (TIFF 6.0, section 19).
      if (format != 1 && format != 3 && format != 4) {
        throw refusals.unsupported(format == 2 ? "signed samples" : "complex samples");
      }
      if (format != formats[0] && (format == 3 || formats[0] == 3)) {
        throw refusals.unsupported("samples of different kinds");
      }
    }
    return formats.length > 0 && formats[0] == 3;
  }

  private static int bits(TiffDirectory tags, boolean floating, Refusals refusals) {
    long[] bits = tags.numbers(TiffTag.BITS_PER_SAMPLE);
    long first = bits.length == 0 ? 1 : bits[0];
    for (long other : bits) {
      if (other != first) {
        throw refusals.unsupported("samples of different sizes");
      }
    }
    boolean few = bits.length <= 1 && (first == 1 || first == 2 || first == 4);
    boolean whole = first == 8 || first == 16 || few;
    boolean real = first == 16 || first == 32 || first == 64;
    if (floating ? !real : !whole) {
      throw refusals.unsupported(first + "-bit " + (floating ? "floating-point " : "") + "samples");
    }
    return (int) first;
  }
}
