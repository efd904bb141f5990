package org.diesurvey.photo;

import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.photo.file.Refusals;
import org.diesurvey.photo.file.SizeCheck;

/**
 * The check of one photograph against the limits that hold for every format.
 *
 * @param refusals of the photograph
 * @param fileBytes size of its file
 * @param limits what it may cost
 */
record SizeLimits(Refusals refusals, long fileBytes, ReadLimits limits) implements SizeCheck {
  private DieInputException tooLarge(long width, long height, String allowed, String remedy) {
    return new DieInputException(
        Reason.PHOTO_TOO_LARGE,
        String.format(
            Locale.ROOT,
            "%s is %d x %d px, %s: %s.",
            refusals.file(),
            width,
            height,
            allowed,
            remedy));
  }

  @Override
  public void checkSize(long width, long height) {
    if (width < 1 || height < 1 || width > Integer.MAX_VALUE || height > Integer.MAX_VALUE) {
      throw refusals.damaged(
          String.format(Locale.ROOT, "its header says %d x %d px", width, height));
    }
    if (width < DiePhoto.MIN_SIDE_PX || height < DiePhoto.MIN_SIDE_PX) {
      throw new DieInputException(
          Reason.PHOTO_TOO_SMALL,
          String.format(
              Locale.ROOT,
              "%s is %d x %d px, too small to survey: use a photograph of at least %d x %d px.",
              refusals.file(),
              width,
              height,
              DiePhoto.MIN_SIDE_PX,
              DiePhoto.MIN_SIDE_PX));
    }
    long pixels = width * height;
    if (pixels > limits.maxPixels()) {
      throw tooLarge(
          width,
          height,
          "more than the limit of " + limits.maxPixels() + " px",
          "cut it into parts");
    }
    if (pixels > ReadLimits.ALWAYS_HARMLESS_PIXELS
        && pixels > limits.maxPixelsPerFileByte() * fileBytes) {
      throw tooLarge(
          width,
          height,
          "far more than a photograph of " + fileBytes + " bytes can hold",
          "export the photograph again");
    }
  }

  /** Whether a picture takes at most half of the free memory decoded, as one array. */
  boolean fitsMemory(PhotoHeader header) {
    long samples = (long) header.width() * header.height() * header.samplesPerPixel();
    return samples <= MOST_SAMPLES && samples * header.bitsPerSample() / 8 <= free() / 2;
  }

  /** Checks what has to be decoded into one array. */
  void checkDecodedSize(PhotoHeader header) {
    checkDecodedSize(
        header.width(), header.height(), header.samplesPerPixel(), header.bitsPerSample() / 8);
  }

  /** Most samples of one array of Java. */
  private static final long MOST_SAMPLES = Integer.MAX_VALUE - 16;

  private static long free() {
    Runtime runtime = Runtime.getRuntime();
    return runtime.maxMemory() - runtime.totalMemory() + runtime.freeMemory();
  }

  /** The same for a picture, strip or tile of which only the form is known. */
  @Override
  public void checkDecodedSize(long width, long height, int samples, int bytesPerSample) {
    String remedy = "save it as a tiled TIFF, which is read piece by piece";
    long pixels = width * height;
    if (pixels > limits.maxDecodedPixels() || pixels * samples > MOST_SAMPLES) {
      throw tooLarge(width, height, "too many to hold decoded in memory", remedy);
    }
    long megabytes = pixels * samples * bytesPerSample / 1_000_000;
    if (pixels * samples * bytesPerSample > free() / 10 * 9 && megabytes > 16) {
      throw tooLarge(
          width,
          height,
          "which needs " + megabytes + " MB of memory decoded, more than is free",
          "give Java more memory (-Xmx) or " + remedy);
    }
  }
}
