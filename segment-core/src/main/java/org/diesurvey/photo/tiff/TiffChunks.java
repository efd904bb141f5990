package org.diesurvey.photo.tiff;

import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;
import org.diesurvey.photo.file.SizeCheck;

/**
 * Where the strips or tiles of a TIFF lie. Long uncompressed strips are cut into shorter ones,
 * since any of their rows can be found without the rows above.
 */
public final class TiffChunks {
  private static final long SHORT_STRIP_BYTES = 1 << 20;

  /** Larger tiles than this are no tiles. */
  private static final long MAX_TILE_PIXELS = 1 << 26;

  private final TiffForm form;
  private final int width;
  private final int height;
  private final boolean tiled;
  private final int across;
  private final int down;
  private final long[] offsets;
  private final long[] counts;

  private TiffChunks(
      TiffForm form, int width, int height, boolean tiled, long[] offsets, long[] counts) {
    this.form = form;
    this.width = width;
    this.height = height;
    this.tiled = tiled;
    this.across = ceilDiv(form.width(), width);
    this.down = ceilDiv(form.height(), height);
    this.offsets = offsets;
    this.counts = counts;
  }

  /**
   * @param shift bytes between the strips that the directory names and those wanted: planes that
   *     lie behind each other without directories of their own
   */
  public static TiffChunks read(
      TiffDirectory tags, TiffForm form, PhotoFile file, SizeCheck sizes, long shift) {
    Refusals refusals = file.refusals();
    boolean tiled = tags.has(TiffTag.TILE_WIDTH) && tags.has(TiffTag.TILE_OFFSETS);
    long width = tiled ? tags.number(TiffTag.TILE_WIDTH, 0) : form.width();
    long height =
        tiled
            ? tags.number(TiffTag.TILE_LENGTH, 0)
            : Math.min(form.height(), tags.number(TiffTag.ROWS_PER_STRIP, form.height()));
    if (width < 1 || height < 1) {
      throw refusals.damaged("strips or tiles of " + width + " x " + height + " px");
    }
    if (tiled && (width > MAX_TILE_PIXELS || height > MAX_TILE_PIXELS / width)) {
      throw refusals.unsupported("tiles of " + width + " x " + height + " px");
    }
    long[] offsets = tags.numbers(tiled ? TiffTag.TILE_OFFSETS : TiffTag.STRIP_OFFSETS);
    for (int i = 0; i < offsets.length && shift > 0; i++) {
      offsets[i] += shift;
    }
    long[] counts = tags.numbers(tiled ? TiffTag.TILE_BYTE_COUNTS : TiffTag.STRIP_BYTE_COUNTS);
    TiffChunks chunks = new TiffChunks(form, (int) width, (int) height, tiled, offsets, counts);
    chunks.checkNumber(refusals);
    if (counts.length == 0 && form.compression() == TiffForm.NONE) {
      counts = chunks.rawCounts();
    }
    chunks = new TiffChunks(form, (int) width, (int) height, tiled, offsets, counts);
    chunks.checkPlaces(file);
    if (!tiled && form.compression() == TiffForm.NONE) {
      chunks = chunks.shortened();
    }
    // A strip or tile is decoded into one array of bytes.
    int pixelBytes = form.samples() * (form.bits() / 8);
    sizes.checkDecodedSize(chunks.width, chunks.height, pixelBytes, 1);
    return chunks;
  }

  private void checkNumber(Refusals refusals) {
    long needed = (long) across * down * planes();
    if (offsets.length < needed) {
      throw refusals.damaged(
          "it lists " + offsets.length + " strips or tiles where " + needed + " are needed");
    }
  }

  private void checkPlaces(PhotoFile file) {
    if (counts.length < offsets.length) {
      throw file.refusals().damaged("it does not say how long its strips or tiles are");
    }
    boolean raw = form.compression() == TiffForm.NONE;
    for (int i = 0; i < across * down * planes(); i++) {
      if (empty(i)) {
        continue;
      }
      if (offsets[i] < 0 || counts[i] < 1 || offsets[i] > file.size() - counts[i]) {
        throw file.refusals()
            .truncated(
                "a strip or tile lies at byte "
                    + offsets[i]
                    + " + "
                    + counts[i]
                    + " of "
                    + file.size()
                    + " bytes");
      }
      if (raw && counts[i] < rawBytes(i)) {
        throw file.refusals().truncated("a strip or tile is shorter than its pixels");
      }
    }
  }

  private long[] rawCounts() {
    long[] raw = new long[offsets.length];
    for (int i = 0; i < raw.length; i++) {
      raw[i] = i < across * down * planes() ? rawBytes(i) : 0;
    }
    return raw;
  }

  /** The same strips cut at rows that divide them evenly. */
  private TiffChunks shortened() {
    long rowBytes = (long) width * samplesPerChunk() * form.bits() / 8;
    int wanted = (int) Math.max(1, Math.min(height, SHORT_STRIP_BYTES / rowBytes));
    int rows = wanted;
    if (down > 1) {
      while (height % rows != 0) {
        rows--;
      }
    }
    int strips = ceilDiv(form.height(), rows);
    long[] places = new long[strips * planes()];
    long[] lengths = new long[places.length];
    TiffChunks cut = new TiffChunks(form, width, rows, false, places, lengths);
    for (int i = 0; i < places.length; i++) {
      long y = (long) (i % strips) * rows;
      int whole = (i / strips) * down + (int) (y / height);
      if (!empty(whole)) {
        places[i] = offsets[whole] + y % height * rowBytes;
        lengths[i] = cut.rawBytes(i);
      }
    }
    return cut;
  }

  public int width() {
    return width;
  }

  public int height() {
    return height;
  }

  /** Columns of chunk {@code i} that lie in the picture. */
  int columnsInside(int i) {
    return (int) Math.min(width, form.width() - (long) (i % across) * width);
  }

  /** Rows of chunk {@code i} that lie in the picture. */
  int rowsInside(int i) {
    int row = i % perPlane() / across;
    return (int) Math.min(height, form.height() - (long) row * height);
  }

  /** Chunks in a row of chunks. */
  public int across() {
    return across;
  }

  /** Chunks of one plane. */
  int perPlane() {
    return across * down;
  }

  int planes() {
    return form.planar() ? form.samples() : 1;
  }

  int samplesPerChunk() {
    return form.planar() ? 1 : form.samples();
  }

  /**
   * Rows that chunk {@code i} holds: tiles are always full, the last strip ends with the picture.
   */
  int rows(int i) {
    return tiled ? height : rowsInside(i);
  }

  /** Bytes of the chunk when decoded. */
  long rawBytes(int i) {
    return (long) width * rows(i) * samplesPerChunk() * (form.bits() / 8);
  }

  /** True for a chunk that was never written (sparse files): its samples are 0. */
  boolean empty(int i) {
    return offsets[i] == 0 && counts[i] == 0;
  }

  long offset(int i) {
    return offsets[i];
  }

  long count(int i) {
    return counts[i];
  }

  private static int ceilDiv(int a, int b) {
    return (int) (((long) a + b - 1) / b);
  }
}
