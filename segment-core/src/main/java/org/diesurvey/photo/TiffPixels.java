package org.diesurvey.photo;

import java.io.IOException;
import java.util.OptionalDouble;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.SampleBlock;
import org.diesurvey.photo.tiff.TiffChunks;
import org.diesurvey.photo.tiff.TiffDecoder;
import org.diesurvey.photo.tiff.TiffForm;
import org.diesurvey.raster.PixelRect;

/** Windows of a TIFF or BigTIFF, decoding only the strips or tiles that a window touches. */
final class TiffPixels implements StoredPixels {
  private static final long MIN_CACHE_BYTES = 64L << 20;

  private final TiffForm form;
  private final TiffChunks chunks;
  private final PhotoFile file;
  private final BlockCache cache;
  private final OptionalDouble zero;

  TiffPixels(PhotoFile file, TiffForm form, TiffChunks chunks, TiffDecoder decoder) {
    this.form = form;
    this.chunks = chunks;
    this.file = file;
    this.zero =
        decoder
            .range()
            .map(r -> OptionalDouble.of(form.whiteIsZero() ? 0 : r.zero()))
            .orElse(OptionalDouble.empty());
    // Two rows of tiles, so that bands of rows with margins decode each tile about once.
    long rowBytes =
        (long) chunks.across()
            * chunks.width()
            * chunks.height()
            * form.samples()
            * form.shownBits()
            / 8;
    long wanted = Math.max(MIN_CACHE_BYTES, 2 * rowBytes);
    this.cache =
        new BlockCache(Math.min(wanted, Runtime.getRuntime().maxMemory() / 4), decoder::block);
  }

  @Override
  public int width() {
    return form.width();
  }

  @Override
  public int height() {
    return form.height();
  }

  @Override
  public OptionalDouble zero() {
    return zero;
  }

  /** Bytes of decoded strips or tiles held now. */
  long heldBytes() {
    return cache.heldBytes();
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    Windows.check(window, this, target.length);
    visit(window, (block, x, y, count, at) -> block.gray(x, y, count, target, at));
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    Windows.check(window, this, target.length);
    visit(window, (block, x, y, count, at) -> block.rgb(x, y, count, target, at));
  }

  @Override
  public void readRgb(PixelRect window, int[] target, byte[] table) {
    Windows.check(window, this, target.length);
    visit(window, (block, x, y, count, at) -> block.rgb(x, y, count, target, at, table));
  }

  /** Takes {@code count} pixels from column x, row y of a block to index {@code at} of a window. */
  private interface RowVisitor {
    void row(SampleBlock block, int x, int y, int count, int at);
  }

  private void visit(PixelRect window, RowVisitor visitor) {
    int right = window.x() + window.width();
    int bottom = window.y() + window.height();
    int lastColumn = (right - 1) / chunks.width();
    int lastRow = (bottom - 1) / chunks.height();
    for (int row = window.y() / chunks.height(); row <= lastRow; row++) {
      int y0 = row * chunks.height();
      int top = Math.max(window.y(), y0);
      int end = (int) Math.min(bottom, (long) y0 + chunks.height());
      for (int column = window.x() / chunks.width(); column <= lastColumn; column++) {
        int x0 = column * chunks.width();
        int left = Math.max(window.x(), x0);
        int count = (int) Math.min(right, (long) x0 + chunks.width()) - left;
        SampleBlock block = cache.block(row * chunks.across() + column);
        for (int y = top; y < end; y++) {
          int at = (y - window.y()) * window.width() + left - window.x();
          visitor.row(block, left - x0, y - y0, count, at);
        }
      }
    }
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
