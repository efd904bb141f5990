package org.diesurvey.photo.tiff;

/**
 * LZW as TIFF writes it (TIFF 6.0, section 13): codes of 9 to 12 bits, high bits first, width grown
 * one code early.
 */
final class TiffLzw {
  private static final int CLEAR = 256;
  private static final int END = 257;
  private static final int FIRST_FREE = 258;
  private static final int TABLE_SIZE = 4096;

  private final short[] prefix = new short[TABLE_SIZE];
  private final byte[] suffix = new byte[TABLE_SIZE];
  private final byte[] head = new byte[TABLE_SIZE];
  private final int[] length = new int[TABLE_SIZE];

  private TiffLzw() {
    for (int i = 0; i < CLEAR; i++) {
      suffix[i] = (byte) i;
      head[i] = (byte) i;
      length[i] = 1;
    }
  }

  /**
   * Fills {@code out} as far as the input reaches.
   *
   * @return bytes written, or -1 where the input makes no sense
   */
  static int decode(byte[] in, byte[] out) {
    return new TiffLzw().run(in, out);
  }

  /** True for the code order of writers before TIFF 5.0 (low bits first), which is not read. */
  static boolean oldOrder(byte[] in) {
    return in.length >= 2 && in[0] == 0 && (in[1] & 1) != 0;
  }

  private int run(byte[] in, byte[] out) {
    int bits = 0;
    int held = 0;
    int next = FIRST_FREE;
    int codeBits = 9;
    int previous = -1;
    int i = 0;
    int at = 0;
    while (at < out.length) {
      while (held < codeBits) {
        if (i >= in.length) {
          return at;
        }
        bits = bits << 8 | in[i++] & 0xff;
        held += 8;
      }
      held -= codeBits;
      int code = bits >>> held & ((1 << codeBits) - 1);
      if (code == END) {
        return at;
      }
      if (code == CLEAR) {
        next = FIRST_FREE;
        codeBits = 9;
        previous = -1;
        continue;
      }
      boolean known = code < CLEAR || previous >= 0 && code >= FIRST_FREE && code < next;
      boolean repeats = previous >= 0 && code == next;
      if (!known && !repeats || next >= TABLE_SIZE && !known) {
        return -1;
      }
      if (previous >= 0 && next < TABLE_SIZE) {
        prefix[next] = (short) previous;
        head[next] = head[previous];
        suffix[next] = head[repeats ? previous : code];
        length[next] = length[previous] + 1;
        next++;
        if (next == (1 << codeBits) - 1 && codeBits < 12) {
          codeBits++;
        }
      }
      at = write(code, out, at);
      previous = code;
    }
    return at;
  }

  private int write(int code, byte[] out, int at) {
    int end = at + length[code];
    int place = end - 1;
    for (int c = code; place >= at; place--) {
      if (place < out.length) {
        out[place] = suffix[c];
      }
      c = prefix[c];
    }
    return Math.min(end, out.length);
  }
}
