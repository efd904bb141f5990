package org.diesurvey.photo;

import org.diesurvey.Supported;

/**
 * What a photograph may cost, checked on its header before anything is decoded.
 *
 * @param maxPixels largest width x height of any photograph
 * @param maxDecodedPixels largest width x height of a photograph that has to be held decoded in
 *     memory (PNG, JPEG, TIFF with JPEG inside); also bounds one strip or tile of a TIFF
 * @param maxPixelsPerFileByte largest expansion; a file that promises more than this is taken for a
 *     decompression bomb. Files of fewer than {@link #ALWAYS_HARMLESS_PIXELS} are not judged
 */
@Supported
public record ReadLimits(long maxPixels, long maxDecodedPixels, double maxPixelsPerFileByte) {
  /** A photograph this small fits into memory whatever it expands from. */
  public static final long ALWAYS_HARMLESS_PIXELS = 64_000_000;

  private static final ReadLimits DEFAULTS = new ReadLimits(1L << 32, 1L << 30, 200);

  /** Rejects limits that would refuse everything. */
  public ReadLimits {
    if (maxPixels < 1 || maxDecodedPixels < 1 || !(maxPixelsPerFileByte > 0)) {
      throw new IllegalArgumentException(
          "limits must be positive, were "
              + maxPixels
              + ", "
              + maxDecodedPixels
              + ", "
              + maxPixelsPerFileByte);
    }
  }

  /**
   * 2^32 pixels; 2^30 pixels held in memory; 200 pixels a byte, far above what the noise of a
   * camera lets any lossless or lossy coder reach (common practice, no source).
   */
  public static ReadLimits defaults() {
    return DEFAULTS;
  }

  /** These limits with another largest picture. */
  public ReadLimits withMaxPixels(long pixels) {
    return new ReadLimits(pixels, maxDecodedPixels, maxPixelsPerFileByte);
  }
}
