package org.diesurvey.synthetic;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Compresses a picture as JPEG in memory. */
final class JpegTrip {
  private JpegTrip() {}

  static BufferedImage image(byte[] rgb, int w, int h) {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_3BYTE_BGR);
    byte[] data = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    swap(rgb, data);
    return image;
  }

  private static void swap(byte[] from, byte[] to) {
    for (int i = 0; i < from.length; i += 3) {
      to[i] = from[i + 2];
      to[i + 1] = from[i + 1];
      to[i + 2] = from[i];
    }
  }

  static byte[] encoded(byte[] rgb, int w, int h, int quality) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(rgb.length / 8);
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(quality / 100f);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image(rgb, w, h), null, null), param);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }

  /** The picture after compression and decompression. */
  static byte[] through(byte[] rgb, int w, int h, int quality) {
    try {
      // The reader closes the stream itself.
      BufferedImage back =
          ImageIO.read(
              new MemoryCacheImageInputStream(
                  new ByteArrayInputStream(encoded(rgb, w, h, quality))));
      byte[] out = new byte[rgb.length];
      if (back.getType() == BufferedImage.TYPE_3BYTE_BGR) {
        swap(((DataBufferByte) back.getRaster().getDataBuffer()).getData(), out);
        return out;
      }
      throw new IllegalStateException("unexpected picture type " + back.getType());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
