package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.event.IIOReadProgressListener;
import javax.imageio.stream.FileImageInputStream;
import org.diesurvey.Cancellation;
import org.diesurvey.photo.file.PhotoFile;

/** Decodes a whole picture with the readers of the Java platform, samples kept as stored. */
final class WholeImageDecoder {
  private WholeImageDecoder() {}

  /**
   * @param format name of the reader: "png", "jpeg", "bmp" or "tiff"
   * @param index of the picture in the file, from 0
   * @param header what the file's header promised; sizes have been checked
   */
  static Expanded decode(PhotoFile file, String format, int index, PhotoHeader header) {
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(format);
    if (!readers.hasNext()) {
      throw file.refusals().unsupported(format + " data that this Java platform cannot read");
    }
    ImageReader reader = readers.next();
    List<String> warnings = new ArrayList<>();
    BufferedImage image;
    try (FileImageInputStream in = new FileImageInputStream(file.path().toFile())) {
      reader.addIIOReadWarningListener((source, warning) -> warnings.add(warning));
      reader.addIIOReadProgressListener(new EndedByInterrupt());
      reader.setInput(in, index == 0, true);
      ImageReadParam param = reader.getDefaultReadParam();
      param.setDestinationType(unconverted(reader, index));
      image = reader.read(index, param);
    } catch (IOException | RuntimeException e) {
      throw file.refusals().damaged("its " + format + " data cannot be decoded", e);
    } finally {
      reader.dispose();
    }
    Cancellation.check();
    for (String warning : warnings) {
      // The platform's JPEG reader fills what is missing with grey and only warns.
      String text = warning.toLowerCase(Locale.ROOT);
      if (text.startsWith("premature end")) {
        throw file.refusals().truncated("its picture data end early");
      }
      if (text.startsWith("corrupt")) {
        throw file.refusals().damaged("its " + format + " data are inconsistent");
      }
    }
    if (image.getWidth() != header.width() || image.getHeight() != header.height()) {
      throw file.refusals().damaged("its size changes between header and picture");
    }
    return Expanded.of(image);
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
