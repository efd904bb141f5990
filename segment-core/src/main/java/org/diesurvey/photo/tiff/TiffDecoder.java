package org.diesurvey.photo.tiff;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;
import org.diesurvey.Cancellation;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.SampleBlock;

/** Turns a strip or tile of a TIFF into samples. */
public final class TiffDecoder {
  /** Codings may make hopeless data a little longer, never much. */
  private static final long CODING_SLACK_BYTES = 1 << 16;

  private final PhotoFile file;
  private final ByteOrder order;
  private final TiffForm form;
  private final TiffChunks chunks;
  private final byte[] tables;
  private final FloatRange range;

  /**
   * @param file the open file
   * @param order byte order of 16-bit samples
   * @param form how pixels are written
   * @param chunks where they lie
   * @param tables of JPEG, shared by all strips or tiles; empty if there are none
   */
  public TiffDecoder(
      PhotoFile file, ByteOrder order, TiffForm form, TiffChunks chunks, byte[] tables) {
    this.file = file;
    this.order = order;
    this.form = form;
    this.chunks = chunks;
    this.tables = tables;
    this.range = form.floating() ? findRange() : null;
  }

  /** The range of floating-point samples, from which their levels are made. */
  public Optional<FloatRange> range() {
    return Optional.ofNullable(range);
  }

  /** Goes through the file once, a strip or tile at a time. */
  private FloatRange findRange() {
    FloatRange.Finder found = new FloatRange.Finder();
    int step = chunks.samplesPerChunk();
    for (int i = 0; i < chunks.perPlane() * chunks.planes(); i++) {
      Cancellation.check();
      if (chunks.planes() > 1 && i / chunks.perPlane() == form.alpha()) {
        continue;
      }
      if (chunks.empty(i)) {
        found.add(0);
        continue;
      }
      FloatSamples samples = floats(i);
      for (int y = 0; y < chunks.rowsInside(i); y++) {
        int start = y * chunks.width() * step;
        for (int k = 0; k < chunks.columnsInside(i) * step; k++) {
          if (step == 1 || k % step != form.alpha()) {
            found.add(samples.at(start + k));
          }
        }
      }
    }
    return found.range(file.refusals());
  }

  private FloatSamples floats(int i) {
    int step = chunks.samplesPerChunk();
    return new FloatSamples(raw(i), order, form, chunks.width() * step, step);
  }

  private short[] scaled(FloatSamples samples) {
    short[] levels = new short[samples.count()];
    for (int i = 0; i < levels.length; i++) {
      levels[i] = range.level(samples.at(i));
    }
    return levels;
  }

  /** The samples of chunk {@code index} of the first plane and its partners in the other planes. */
  public SampleBlock block(int index) {
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
      int chunk = index + p * chunks.perPlane();
      parts[p] = form.floating() ? scaled(floats(chunk)) : whole16(raw(chunk));
      if (form.whiteIsZero()) {
        invert(parts[p]);
      }
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
    if (form.predictor() == TiffForm.Predictor.WHOLE_NUMBERS) {
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

  private short[] whole16(byte[] raw) {
    short[] samples = new short[raw.length / 2];
    ByteBuffer.wrap(raw).order(order).asShortBuffer().get(samples);
    int step = chunks.samplesPerChunk();
    int row = chunks.width() * step;
    if (form.predictor() == TiffForm.Predictor.WHOLE_NUMBERS) {
      for (int start = 0; start < samples.length; start += row) {
        for (int i = start + step; i < start + row; i++) {
          samples[i] += samples[i - step];
        }
      }
    }
    return samples;
  }

  private static void invert(short[] samples) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) ~samples[i];
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
