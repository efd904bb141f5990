package org.diesurvey.photo.tiff;

import io.airlift.compress.zstd.ZstdDecompressor;
import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * The lossless codings of TIFF 6.0. Every decoder fills {@code out} as far as the input reaches and
 * returns how many bytes it wrote, or -1 where the input makes no sense; none writes or reads
 * outside its arrays.
 */
final class TiffCompression {
  private TiffCompression() {}

  /** Deflate in the zlib format (RFC 1950), as in TIFF Technical Note 2 (compression 8, 32946). */
  static int inflate(byte[] in, byte[] out) {
    Inflater inflater = new Inflater();
    try {
      inflater.setInput(in);
      int at = 0;
      while (at < out.length && !inflater.finished()) {
        int got = inflater.inflate(out, at, out.length - at);
        if (got == 0 && (inflater.needsInput() || inflater.needsDictionary())) {
          break;
        }
        at += got;
      }
      return at;
    } catch (DataFormatException e) {
      return -1;
    } finally {
      inflater.end();
    }
  }

  /** Zstandard (RFC 8878), as libtiff writes it (compression 50000, from its source). */
  static int unpackZstd(byte[] in, byte[] out) {
    try {
      return new ZstdDecompressor().decompress(in, 0, in.length, out, 0, out.length);
    } catch (RuntimeException e) {
      // Its kinds differ between damage and a target that is too short.
      return -1;
    }
  }

  /** PackBits (TIFF 6.0, section 9). */
  static int unpackBits(byte[] in, byte[] out) {
    int at = 0;
    int i = 0;
    while (i < in.length && at < out.length) {
      int n = in[i++];
      if (n >= 0) {
        int count = Math.min(n + 1, Math.min(in.length - i, out.length - at));
        System.arraycopy(in, i, out, at, count);
        at += count;
        i += n + 1;
      } else if (n != -128 && i < in.length) {
        int end = Math.min(out.length, at + 1 - n);
        Arrays.fill(out, at, end, in[i++]);
        at = end;
      }
    }
    return at;
  }
}
