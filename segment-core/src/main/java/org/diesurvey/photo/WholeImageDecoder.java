package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.event.IIOReadProgressListener;
import javax.imageio.stream.FileImageInputStream;
import org.diesurvey.Cancellation;
import org.diesurvey.CancelledException;
import org.diesurvey.DieInputException;
import org.diesurvey.photo.file.PhotoFile;
import org.diesurvey.photo.file.Refusals;

/** Decodes a whole picture with the readers of the Java platform, samples kept as stored. */
final class WholeImageDecoder {
  private WholeImageDecoder() {}

  /**
   * @param format PNG, JPEG, BMP or TIFF
   * @param index of the picture in the file, from 0
   * @param header what the file's header promised; its size was checked as such
   */
  static Expanded decode(
      PhotoFile file, FileFormat format, int index, PhotoHeader header, SizeLimits limits) {
    return decode(file, format, index, header, limits, !limits.fitsMemory(header));
  }

  /**
   * The same where the size does not decide.
   *
   * @param inFile whether the picture goes to a scratch file, if it is stored row by row
   */
  static Expanded decode(
      PhotoFile file,
      FileFormat format,
      int index,
      PhotoHeader header,
      SizeLimits limits,
      boolean inFile) {
    String name = format.name().toLowerCase(Locale.ROOT);
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(name);
    if (!readers.hasNext()) {
      throw file.refusals().unsupported(name + " data that this Java platform cannot read");
    }
    ImageReader reader = readers.next();
    List<String> warnings = new ArrayList<>();
    Optional<BufferedImage> scratch = Optional.empty();
    boolean complete = false;
    try (FileImageInputStream in = new FileImageInputStream(file.path().toFile())) {
      reader.addIIOReadWarningListener((source, warning) -> warnings.add(warning));
      reader.addIIOReadProgressListener(new EndedByInterrupt());
      reader.setInput(in, index == 0, true);
      ImageReadParam param = reader.getDefaultReadParam();
      ImageTypeSpecifier type = unconverted(reader, index);
      boolean byRows =
          format == FileFormat.JPEG || format == FileFormat.PNG && !PngHeader.isInterlaced(file);
      if (inFile && byRows && ScratchRaster.holds(type)) {
        scratch = Optional.of(ScratchRaster.picture(type, header.width(), header.height()));
        param.setDestination(scratch.get());
      } else {
        limits.checkDecodedSize(header);
        param.setDestinationType(type);
      }
      BufferedImage image = reader.read(index, param);
      Cancellation.check();
      warnings.forEach(w -> refuse(w, name, file.refusals()));
      if (image.getWidth() != header.width() || image.getHeight() != header.height()) {
        throw file.refusals().damaged("its size changes between header and picture");
      }
      complete = true;
      return Expanded.of(image);
    } catch (DieInputException | CancelledException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      // A reader of the platform may wrap what the scratch file has to say.
      if (e.getCause() instanceof DieInputException || e.getCause() instanceof CancelledException) {
        throw (RuntimeException) e.getCause();
      }
      throw file.refusals().damaged("its " + name + " data cannot be decoded", e);
    } finally {
      reader.dispose();
      if (!complete) {
        scratch.ifPresent(s -> ((ScratchRaster) s.getRaster()).discard());
      }
    }
  }

  /** The platform's JPEG reader fills what is missing with grey and only warns. */
  private static void refuse(String warning, String format, Refusals refusals) {
    String text = warning.toLowerCase(Locale.ROOT);
    if (text.startsWith("premature end")) {
      throw refusals.truncated("its picture data end early");
    }
    if (text.startsWith("corrupt")) {
      throw refusals.damaged("its " + format + " data are inconsistent");
    }
  }

  /** Gives up the decoding of a large picture when the thread is interrupted. */
  private static final class EndedByInterrupt implements IIOReadProgressListener {
    @Override
    public void imageProgress(ImageReader source, float percentageDone) {
      if (Thread.currentThread().isInterrupted()) {
        source.abort();
      }
    }

    @Override
    public void sequenceStarted(ImageReader source, int minIndex) {}

    @Override
    public void sequenceComplete(ImageReader source) {}

    @Override
    public void imageStarted(ImageReader source, int imageIndex) {}

    @Override
    public void imageComplete(ImageReader source) {}

    @Override
    public void thumbnailStarted(ImageReader source, int imageIndex, int thumbnailIndex) {}

    @Override
    public void thumbnailProgress(ImageReader source, float percentageDone) {}

    @Override
    public void thumbnailComplete(ImageReader source) {}

    @Override
    public void readAborted(ImageReader source) {}
  }

  /**
   * The type that spares a colour conversion: with an embedded profile the JPEG reader offers sRGB
   * first and the profile's own space last, and only the latter keeps the stored values.
   */
  private static ImageTypeSpecifier unconverted(ImageReader reader, int index) throws IOException {
    ImageTypeSpecifier chosen = null;
    int bands = 0;
    for (Iterator<ImageTypeSpecifier> i = reader.getImageTypes(index); i.hasNext(); ) {
      ImageTypeSpecifier type = i.next();
      boolean profile = !type.getColorModel().getColorSpace().isCS_sRGB();
      if (chosen == null) {
        chosen = type;
        bands = type.getNumBands();
      } else if (profile && type.getNumBands() == bands) {
        chosen = type;
      }
    }
    return chosen;
  }
}
