package org.diesurvey.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/** Turns a strip or tile of a TIFF into samples. */
final class TiffDecoder {
  /** Codings may make hopeless data a little longer, never much. */
  private static final long CODING_SLACK_BYTES = 1 << 16;

  private final PhotoFile file;
  private final ByteOrder order;
  private final TiffForm form;
  private final TiffChunks chunks;
  private final byte[] tables;

  /**
   * @param file the open file
   * @param order byte order of 16-bit samples
   * @param form how pixels are written
   * @param chunks where they lie
   * @param tables of JPEG, shared by all strips or tiles; empty if there are none
   */
  TiffDecoder(PhotoFile file, ByteOrder order, TiffForm form, TiffChunks chunks, byte[] tables) {
    this.file = file;
    this.order = order;
    this.form = form;
    this.chunks = chunks;
    this.tables = tables;
  }

  /** The samples of chunk {@code index} of the first plane and its partners in the other planes. */
  SampleBlock block(int index) {
    int planes = chunks.planes();
    int width = chunks.width();
    SampleBlock.Order arranged = SampleBlock.Order.interleaved(width, form.shownSamples());
    if (form.bits() == 8) {
      byte[][] parts = new byte[planes][];
      for (int p = 0; p < planes; p++) {
        parts[p] = raw(index + p * chunks.perPlane());
        finish8(parts[p]);
      }
      return SampleBlock.of8Bit(light8(planes == 1 ? parts[0] : interleave(parts)), arranged);
    }
    short[][] parts = new short[planes][];
    for (int p = 0; p < planes; p++) {
      byte[] bytes = raw(index + p * chunks.perPlane());
      parts[p] = new short[bytes.length / 2];
      ByteBuffer.wrap(bytes).order(order).asShortBuffer().get(parts[p]);
      finish16(parts[p]);
    }
    return SampleBlock.of16Bit(light16(planes == 1 ? parts[0] : interleave(parts)), arranged);
  }

  private byte[] raw(int i) {
    int length = Math.toIntExact(chunks.rawBytes(i));
    if (chunks.empty(i)) {
      return new byte[length];
    }
    if (form.compression() == TiffForm.NONE) {
      return file.read(chunks.offset(i), length);
    }
    long longest = Math.min(length * 3L / 2 + CODING_SLACK_BYTES, Integer.MAX_VALUE - 16);
    byte[] in = file.read(chunks.offset(i), (int) Math.min(chunks.count(i), longest));
    byte[] out = new byte[length];
    int written =
        switch (form.compression()) {
          case TiffForm.LZW -> lzw(in, out);
          case TiffForm.PACK_BITS -> TiffCompression.unpackBits(in, out);
          case TiffForm.ZSTD -> TiffCompression.unpackZstd(in, out);
          case TiffForm.JPEG ->
              TiffJpeg.decode(
                  tables,
                  in,
                  out,
                  chunks.width(),
                  chunks.samplesPerChunk(),
                  form.colours() == TiffForm.Colours.LUMA_CHROMA);
          default -> TiffCompression.inflate(in, out);
        };
    if (written < length) {
      throw file.refusals()
          .damaged("the strip or tile at byte " + chunks.offset(i) + " cannot be decoded");
    }
    return out;
  }

  private int lzw(byte[] in, byte[] out) {
    if (TiffLzw.oldOrder(in)) {
      throw file.refusals().unsupported("LZW data of a very old TIFF writer");
    }
    return TiffLzw.decode(in, out);
  }

  /** Inks to light: each channel is what neither its ink nor black takes away. */
  private byte[] light8(byte[] samples) {
    if (form.colours() != TiffForm.Colours.INKS) {
      return samples;
    }
    byte[] rgb = new byte[samples.length / 4 * 3];
    for (int i = 0, at = 0; i < samples.length; i += 4) {
      int black = 255 - (samples[i + 3] & 0xff);
      for (int c = 0; c < 3; c++) {
        rgb[at++] = (byte) (((255 - (samples[i + c] & 0xff)) * black + 127) / 255);
      }
    }
    return rgb;
  }

  private short[] light16(short[] samples) {
    if (form.colours() != TiffForm.Colours.INKS) {
      return samples;
    }
    short[] rgb = new short[samples.length / 4 * 3];
    for (int i = 0, at = 0; i < samples.length; i += 4) {
      long black = 65_535 - (samples[i + 3] & 0xffff);
      for (int c = 0; c < 3; c++) {
        rgb[at++] = (short) (((65_535 - (samples[i + c] & 0xffff)) * black + 32_767) / 65_535);
      }
    }
    return rgb;
  }

  private void finish8(byte[] samples) {
    int step = chunks.samplesPerChunk();
    int row = chunks.width() * step;
    if (form.differences()) {
      for (int start = 0; start < samples.length; start += row) {
        for (int i = start + step; i < start + row; i++) {
          samples[i] += samples[i - step];
        }
      }
    }
    if (form.whiteIsZero()) {
      for (int i = 0; i < samples.length; i++) {
        samples[i] = (byte) ~samples[i];
      }
    }
  }

  private void finish16(short[] samples) {
    int step = chunks.samplesPerChunk();
    int row = chunks.width() * step;
    if (form.differences()) {
      for (int start = 0; start < samples.length; start += row) {
        for (int i = start + step; i < start + row; i++) {
          samples[i] += samples[i - step];
        }
      }
    }
    if (form.whiteIsZero()) {
      for (int i = 0; i < samples.length; i++) {
        samples[i] = (short) ~samples[i];
      }
    }
  }

  private static byte[] interleave(byte[][] parts) {
    byte[] whole = new byte[Math.multiplyExact(parts[0].length, parts.length)];
    for (int p = 0; p < parts.length; p++) {
      for (int i = 0, at = p; i < parts[p].length; i++, at += parts.length) {
        whole[at] = parts[p][i];
      }
    }
    return whole;
  }

  private static short[] interleave(short[][] parts) {
    short[] whole = new short[Math.multiplyExact(parts[0].length, parts.length)];
    for (int p = 0; p < parts.length; p++) {
      for (int i = 0, at = p; i < parts[p].length; i++, at += parts.length) {
        whole[at] = parts[p][i];
      }
    }
    return whole;
  }
}
