package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.ClosedByInterruptException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;

/**
 * An open photograph: what is known of the file, and its pixels on demand.
 *
 * <p>The pixel frame is that of the picture as it is meant to be seen: an orientation tag is
 * applied, which {@link #reading} tells; colour profiles are not. PNG, JPEG and BMP are decoded as
 * a whole, PNG and JPEG that are too large for the memory into a scratch file; a TIFF or BigTIFF is
 * read piece by piece and stays open until {@link #close}. Safe for several threads until it is
 * closed.
 */
@Supported
public final class DiePhoto implements AutoCloseable {
  /** A photograph with a shorter side than this is refused. */
  public static final int MIN_SIDE_PX = 64;

  private final PhotoInfo info;
  private final LevelledPixels pixels;
  private final PixelSource upright;
  private final Optional<JpegCompression> jpeg;
  private final Reading reading;

  DiePhoto(PhotoInfo info, PixelSource pixels, Optional<JpegCompression> jpeg, Reading reading) {
    this.info = info;
    this.reading = reading;
    this.pixels = new LevelledPixels(pixels, info.bitsPerSample());
    this.upright = OrientedPixels.of(this.pixels, reading.orientation());
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
   * Opens a PNG, JPEG, BMP, TIFF or BigTIFF; the format is told by the first bytes, not by the
   * name.
   *
   * @throws DieInputException if the file cannot be surveyed, with one sentence that says why
   */
  public static DiePhoto open(Path path, ReadLimits limits) {
    return open(path, limits, OptionalInt.empty());
  }

  /**
   * Opens one picture of a file that may hold several: a stack, channels, pages.
   *
   * @param plane its number from 1; the first if empty
   * @throws DieInputException if the file cannot be surveyed or has no such plane
   */
  public static DiePhoto open(Path path, ReadLimits limits, OptionalInt plane) {
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
      DiePhoto photo = open(file, limits, plane);
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
    new SizeLimits(new Refusals(info.fileName()), Long.MAX_VALUE / 1000, ReadLimits.defaults())
        .checkSize(pixels.width(), pixels.height());
    if (info.widthPx() != pixels.width() || info.heightPx() != pixels.height()) {
      throw new IllegalArgumentException(
          "said to be " + info.widthPx() + " x " + info.heightPx() + " px, but is not");
    }
    return new DiePhoto(info, pixels, Optional.empty(), Reading.PLAIN);
  }

  /**
   * A photograph that a program holds as a picture of the platform. Its samples are copied if they
   * are not levels of 8 or 16 bit already; it is not to be changed while the photograph is in use.
   *
   * @param name to call it by in surveys and messages
   * @throws DieInputException if a side is shorter than {@link #MIN_SIDE_PX}
   */
  public static DiePhoto of(String name, BufferedImage image) {
    return MemoryPhoto.of(name, image);
  }

  /**
   * A photograph from 8-bit samples, which are copied.
   *
   * @param name to call it by in surveys and messages
   * @param samples row by row from the upper left, pixel by pixel, channels together
   * @param channels 1 grey, 2 grey with alpha, 3 RGB, 4 RGB with alpha
   * @throws DieInputException if a side is shorter than {@link #MIN_SIDE_PX}
   */
  public static DiePhoto of(String name, byte[] samples, int width, int height, int channels) {
    return MemoryPhoto.of(name, samples, null, width, height, channels);
  }

  /**
   * A photograph from samples of up to 16 bits, unsigned, which are copied; how many bits are in
   * use is found out (see {@link #levels}).
   *
   * @param name to call it by in surveys and messages
   * @param samples row by row from the upper left, pixel by pixel, channels together
   * @param channels 1 grey, 2 grey with alpha, 3 RGB, 4 RGB with alpha
   * @throws DieInputException if a side is shorter than {@link #MIN_SIDE_PX}
   */
  public static DiePhoto of(String name, short[] samples, int width, int height, int channels) {
    return MemoryPhoto.of(name, null, samples, width, height, channels);
  }

  /**
   * A photograph from a source of one's own, which is read once for its SHA-256. Where that, or the
   * file it comes from, is known, {@link #of(PhotoInfo, PixelSource)} says so instead.
   *
   * @param name to call it by in surveys and messages
   * @param pixels closed together with the photograph; may be read from several threads at once
   * @throws DieInputException if a side is shorter than {@link #MIN_SIDE_PX}
   */
  public static DiePhoto of(String name, PixelSource pixels) {
    return MemoryPhoto.of(name, pixels, 8, 3);
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
    return upright;
  }

  /**
   * The pixels with levels proportional to those that the camera stored: white is the largest value
   * of the bits in use, and nothing is spread. For photographs of light, which use few levels by
   * their nature.
   */
  public PixelSource proportional() {
    return OrientedPixels.of(pixels.proportional(), reading.orientation());
  }

  /** Which of the file's pictures this is, and what was done to its samples. */
  public Reading reading() {
    return reading;
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
          Reason.FILE_IS_DIRECTORY,
          UnreadFormat.ofFolder(path)
              .map(u -> path + " holds " + u.name() + ": " + u.remedy() + ".")
              .orElse(
                  path
                      + " is a folder: name the photographs in it, or survey the whole folder with"
                      + " batch."));
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

  private static DiePhoto open(PhotoFile file, ReadLimits limits, OptionalInt plane) {
    if (file.size() == 0) {
      throw new DieInputException(
          Reason.FILE_EMPTY,
          file.refusals().file() + " is empty (0 bytes): copy or export the file again.");
    }
    byte[] head = file.read(0, (int) Math.min(file.size(), FileFormat.MAGIC_BYTES));
    FileFormat format = FileFormat.of(head).orElseThrow(() -> unread(file, head));
    if (format == FileFormat.TIFF) {
      return TiffPhoto.open(file, limits, plane);
    }
    requirePlane(file, plane, 1);
    return switch (format) {
      case PNG -> decoded(file, format, PngHeader.read(file), limits, 0, Reading.PLAIN);
      case JPEG -> decoded(file, format, JpegHeader.read(file), limits, 0, Reading.PLAIN);
      default -> decoded(file, format, BmpHeader.read(file), limits, 0, Reading.PLAIN);
    };
  }

  private static DieInputException unread(PhotoFile file, byte[] head) {
    return UnreadFormat.of(head)
        .map(
            u ->
                new DieInputException(
                    Reason.FORMAT_UNKNOWN,
                    file.refusals().file()
                        + " is "
                        + u.name()
                        + ", which this program does not read: "
                        + u.remedy()
                        + "."))
        .orElseGet(
            () ->
                new DieInputException(
                    Reason.FORMAT_UNKNOWN,
                    file.refusals().file()
                        + " is not a photograph that can be read, whatever its name says:"
                        + " save the photograph as PNG, JPEG or TIFF."));
  }

  /** Refuses a plane that the file does not have. */
  static void requirePlane(PhotoFile file, OptionalInt plane, int planes) {
    if (plane.isPresent() && plane.getAsInt() > planes) {
      throw new DieInputException(
          Reason.PLANE_UNKNOWN,
          file.refusals().file()
              + (planes == 1 ? " holds one picture" : " holds " + planes + " pictures")
              + ", so there is no plane "
              + plane.getAsInt()
              + (planes == 1 ? ": do not state a plane." : ": choose one from 1 to it."));
    }
  }

  /**
   * A picture that is decoded as a whole.
   *
   * @param index of the picture in the file, from 0
   */
  static DiePhoto decoded(
      PhotoFile file,
      FileFormat format,
      PhotoHeader header,
      ReadLimits limits,
      int index,
      Reading reading) {
    SizeLimits sizes = new SizeLimits(file.refusals(), file.size(), limits);
    sizes.checkSize(header.width(), header.height());
    Expanded decoded = WholeImageDecoder.decode(file, format, index, header, sizes);
    Optional<JpegCompression> jpeg =
        format == FileFormat.JPEG ? JpegCompression.read(file) : Optional.empty();
    List<String> done = new ArrayList<>(reading.conversions());
    decoded.conversion().ifPresent(done::add);
    Reading as = new Reading(reading.plane(), reading.planes(), header.orientation(), done);
    DiePhoto photo = new DiePhoto(info(file, format, header, as), decoded.pixels(), jpeg, as);
    closeQuietly(file);
    return photo;
  }

  static PhotoInfo info(PhotoFile file, FileFormat format, PhotoHeader header, Reading as) {
    Path name = file.path().getFileName();
    return new PhotoInfo(
        name == null ? "" : name.toString(),
        file.sha256(),
        file.size(),
        format.name(),
        as.swapsSides() ? header.height() : header.width(),
        as.swapsSides() ? header.width() : header.height(),
        header.bitsPerSample(),
        header.samplesPerPixel(),
        header.scale());
  }

  static void closeQuietly(PhotoFile file) {
    try {
      file.close();
    } catch (IOException e) {
      throw file.refusals().unreadable(e);
    }
  }
}
