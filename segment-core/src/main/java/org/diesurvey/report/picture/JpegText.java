package org.diesurvey.report.picture;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Pictures as JPEG files in base64, to stand in a page. */
public final class JpegText {
  private JpegText() {}

  /**
   * @param pixels 0xRRGGBB; a picture without colour becomes a file of one channel
   */
  public static String base64(int[] pixels, int width, int height, float quality) {
    if (grey(pixels)) {
      BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
      byte[] samples = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
      for (int i = 0; i < pixels.length; i++) {
        samples[i] = (byte) pixels[i];
      }
      return encoded(image, quality);
    }
    return encoded(bytes(pixels, width, height), quality);
  }

  /** As the writer wants it; from packed pixels it takes each sample by itself. */
  private static BufferedImage bytes(int[] pixels, int width, int height) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_3BYTE_BGR);
    byte[] samples = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    for (int i = 0; i < pixels.length; i++) {
      samples[3 * i] = (byte) pixels[i];
      samples[3 * i + 1] = (byte) (pixels[i] >> 8);
      samples[3 * i + 2] = (byte) (pixels[i] >> 16);
    }
    return image;
  }

  private static boolean grey(int[] pixels) {
    for (int p : pixels) {
      int blue = p & 0xff;
      if ((p >> 16 & 0xff) != blue || (p >> 8 & 0xff) != blue) {
        return false;
      }
    }
    return true;
  }

  public static String base64(BufferedImage image, float quality) {
    if (image.getType() == BufferedImage.TYPE_INT_RGB) {
      int width = image.getWidth();
      int height = image.getHeight();
      int[] pixels = new int[width * height];
      image.getRaster().getDataElements(0, 0, width, height, pixels);
      return encoded(bytes(pixels, width, height), quality);
    }
    return encoded(image, quality);
  }

  private static String encoded(BufferedImage image, float quality) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 17);
    try (var out = new MemoryCacheImageOutputStream(bytes)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(quality);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      writer.dispose();
    }
    return Base64.getEncoder().encodeToString(bytes.toByteArray());
  }
}
