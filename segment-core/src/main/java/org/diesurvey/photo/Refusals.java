package org.diesurvey.photo;

import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * The sentences with which one photograph is refused: each names the file, what was seen and what
 * to do.
 *
 * @param file the name to show
 */
record Refusals(String file) {
  private static final String RESAVE = "save it as 8- or 16-bit grey or RGB (PNG or TIFF)";

  DieInputException unsupported(String seen) {
    return new DieInputException(
        Reason.FORMAT_UNSUPPORTED,
        file + " holds " + seen + ", which this program does not read: " + RESAVE + ".");
  }

  DieInputException truncated(String seen) {
    return new DieInputException(
        Reason.FILE_TRUNCATED,
        file + " is cut short (" + seen + "): copy or export the file again.");
  }

  DieInputException damaged(String seen) {
    return damaged(seen, null);
  }

  DieInputException damaged(String seen, Throwable cause) {
    return new DieInputException(
        Reason.FILE_UNREADABLE,
        file + " is damaged (" + seen + "): copy or export the file again.",
        cause);
  }

  DieInputException unreadable(Throwable cause) {
    return new DieInputException(
        Reason.FILE_UNREADABLE,
        file + " cannot be read: check that the drive is connected and that you may open the file.",
        cause);
  }

  DieInputException tooLarge(long width, long height, String allowed, String remedy) {
    return new DieInputException(
        Reason.PHOTO_TOO_LARGE,
        String.format(
            Locale.ROOT, "%s is %d x %d px, %s: %s.", file, width, height, allowed, remedy));
  }

  /** Checks the size that a header states against the limits that hold for every format. */
  void checkSize(long width, long height, long fileBytes, ReadLimits limits) {
    if (width < 1 || height < 1 || width > Integer.MAX_VALUE || height > Integer.MAX_VALUE) {
      throw damaged(String.format(Locale.ROOT, "its header says %d x %d px", width, height));
    }
    if (width < DiePhoto.MIN_SIDE_PX || height < DiePhoto.MIN_SIDE_PX) {
      throw new DieInputException(
          Reason.PHOTO_TOO_SMALL,
          String.format(
              Locale.ROOT,
              "%s is %d x %d px, too small to survey: use a photograph of at least %d x %d px.",
              file,
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
  void checkDecodedSize(PhotoHeader header, ReadLimits limits) {
    checkDecodedSize(
        header.width(),
        header.height(),
        header.samplesPerPixel(),
        header.bitsPerSample() / 8,
        limits);
  }

  /** Most samples of one array of Java. */
  private static final long MOST_SAMPLES = Integer.MAX_VALUE - 16;

  private static long free() {
    Runtime runtime = Runtime.getRuntime();
    return runtime.maxMemory() - runtime.totalMemory() + runtime.freeMemory();
  }

  /** The same for a picture, strip or tile of which only the form is known. */
  void checkDecodedSize(
      long width, long height, int samples, int bytesPerSample, ReadLimits limits) {
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
