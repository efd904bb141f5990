package org.diesurvey.photo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.ClosedByInterruptException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * An open photograph: what is known of the file, and its pixels on demand.
 *
 * <p>The pixel frame is the stored frame: orientation tags and colour profiles are not applied. PNG
 * and JPEG are decoded into memory as a whole; a TIFF or BigTIFF is read piece by piece and stays
 * open until {@link #close}. Safe for several threads until it is closed.
 */
public final class DiePhoto implements AutoCloseable {
  /** A photograph with a shorter side than this is refused. */
  public static final int MIN_SIDE_PX = 64;

  private final PhotoInfo info;
  private final LevelledPixels pixels;
  private final Optional<JpegCompression> jpeg;

  private DiePhoto(PhotoInfo info, PixelSource pixels, Optional<JpegCompression> jpeg) {
    this.info = info;
    this.pixels = new LevelledPixels(pixels, info.bitsPerSample());
    this.jpeg = jpeg;
  }

  /**
   * Opens a photograph with {@link ReadLimits#defaults}.
   *
   * @throws DieInputException if the file cannot be surveyed, with one sentence that says why
   */
  public static DiePhoto open(Path path) {
    return open(path, ReadLimits.defaults());
  }

  /**
   * Opens a PNG, JPEG, TIFF or BigTIFF; the format is told by the first bytes, not by the name.
   *
   * @throws DieInputException if the file cannot be surveyed, with one sentence that says why
   */
  public static DiePhoto open(Path path, ReadLimits limits) {
    Refusals refusals = new Refusals(path.toString());
    checkFile(path);
    PhotoFile file;
    try {
      file = PhotoFile.open(path, refusals);
    } catch (AccessDeniedException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          path + " may not be read: ask for permission to read the file.",
          e);
    } catch (ClosedByInterruptException e) {
      throw new CancelledException("reading " + path);
    } catch (IOException e) {
      throw refusals.unreadable(e);
    }
    boolean opened = false;
    try {
      DiePhoto photo = open(file, limits);
      opened = true;
      return photo;
    } finally {
      if (!opened) {
        closeQuietly(file);
      }
    }
  }

  /**
   * A photograph whose pixels are at hand already.
   *
   * @param info what is to be said of it; its size must be that of the pixels
   * @param pixels closed together with the photograph
   * @throws DieInputException if a side is shorter than {@link #MIN_SIDE_PX}
   */
  public static DiePhoto of(PhotoInfo info, PixelSource pixels) {
    return new DiePhoto(info, pixels, Optional.empty());
  }

  /** What is known of the file. */
  public PhotoInfo info() {
    return info;
  }

  /** How strongly the file is compressed; empty unless it is a JPEG with a table for brightness. */
  public Optional<JpegCompression> jpegCompression() {
    return jpeg;
  }

  /** The pixels, until this photograph is closed; their levels as {@link #levels} tells. */
  public PixelSource pixels() {
    return pixels;
  }

  /** How the stored levels are brought to 0 to 1; looks at a sample of rows when first asked. */
  public Levels levels() {
    return pixels.levels();
  }

  /**
   * Refuses a photograph that is black, white or of one flat tone, judged by all pixels of a sparse
   * sample of rows.
   *
   * @throws DieInputException with {@link Reason#PHOTO_WITHOUT_CONTENT}
   */
  public void requireContent() {
    ContentCheck.check(info, pixels.sample());
  }

  @Override
  public void close() {
    try {
      pixels.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void checkFile(Path path) {
    if (Files.isDirectory(path)) {
      throw new DieInputException(
          Reason.FILE_IS_DIRECTORY, path + " is a folder: name the photographs in it one by one.");
    }
    if (!Files.exists(path)) {
      throw new DieInputException(
          Reason.FILE_MISSING, path + " does not exist: check the spelling and the folder.");
    }
    if (!Files.isRegularFile(path)) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          path + " is not an ordinary file: copy the photograph to a file.");
    }
  }

  private static DiePhoto open(PhotoFile file, ReadLimits limits) {
    if (file.size() == 0) {
      throw new DieInputException(
          Reason.FILE_EMPTY,
          file.refusals().file() + " is empty (0 bytes): copy or export the file again.");
    }
    byte[] head = file.read(0, (int) Math.min(file.size(), FileFormat.MAGIC_BYTES));
    FileFormat format =
        FileFormat.of(head)
            .orElseThrow(
                () ->
                    new DieInputException(
                        Reason.FORMAT_UNKNOWN,
                        file.refusals().file()
                            + " is not a photograph that can be read, whatever its name says:"
                            + " save the photograph as PNG, JPEG or TIFF."));
    return switch (format) {
      case PNG -> decoded(file, format, PngHeader.read(file), limits);
      case JPEG -> decoded(file, format, JpegHeader.read(file), limits);
      case TIFF -> tiff(file, limits);
    };
  }

  private static DiePhoto decoded(
      PhotoFile file, FileFormat format, PhotoHeader header, ReadLimits limits) {
    Refusals refusals = file.refusals();
    refusals.checkSize(header.width(), header.height(), file.size(), limits);
    refusals.checkDecodedSize(
        header.width(),
        header.height(),
        header.samplesPerPixel(),
        header.bitsPerSample() / 8,
        limits);
    String reader = format.name().toLowerCase(Locale.ROOT);
    DecodedPixels pixels = WholeImageDecoder.decode(file, reader, header);
    Optional<JpegCompression> jpeg =
        format == FileFormat.JPEG ? JpegCompression.read(file) : Optional.empty();
    DiePhoto photo = new DiePhoto(info(file, format, header), pixels, jpeg);
    closeQuietly(file);
    return photo;
  }

  private static DiePhoto tiff(PhotoFile file, ReadLimits limits) {
    TiffDirectory tags = TiffDirectory.read(file);
    TiffForm form = TiffForm.read(tags, file, limits);
    PhotoHeader header =
        new PhotoHeader(
            form.width(), form.height(), form.bits(), form.samples(), TiffScale.read(tags));
    TiffChunks chunks = TiffChunks.read(tags, form, file, limits);
    if (form.compression() == TiffForm.JPEG) {
      if (tags.big()) {
        throw file.refusals().unsupported("a BigTIFF with JPEG inside");
      }
      return decoded(file, FileFormat.TIFF, header, limits);
    }
    TiffDecoder decoder = new TiffDecoder(file, tags.order(), form, chunks);
    TiffPixels pixels = new TiffPixels(file, form, chunks, decoder);
    return new DiePhoto(info(file, FileFormat.TIFF, header), pixels, Optional.empty());
  }

  private static PhotoInfo info(PhotoFile file, FileFormat format, PhotoHeader header) {
    Path name = file.path().getFileName();
    return new PhotoInfo(
        name == null ? "" : name.toString(),
        file.sha256(),
        file.size(),
        format.name(),
        header.width(),
        header.height(),
        header.bitsPerSample(),
        header.samplesPerPixel(),
        header.scale());
  }

  private static void closeQuietly(PhotoFile file) {
    try {
      file.close();
    } catch (IOException e) {
      throw file.refusals().unreadable(e);
    }
  }
}
