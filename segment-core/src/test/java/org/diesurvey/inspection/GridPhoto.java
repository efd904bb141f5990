package org.diesurvey.inspection;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import org.diesurvey.raster.GrayRaster;

/** Photographs that were a JPEG once. */
final class GridPhoto {
  private GridPhoto() {}

  static GreyPhoto throughJpeg(GreyPhoto photo, float quality) throws IOException {
    int w = photo.width();
    int h = photo.height();
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int level = Math.max(0, Math.min(255, Math.round(255 * photo.raster().get(x, y))));
        image.getRaster().setSample(x, y, 0, level);
      }
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    try (var out = ImageIO.createImageOutputStream(bytes)) {
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(quality);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
    BufferedImage back = ImageIO.read(new ByteArrayInputStream(bytes.toByteArray()));
    GrayRaster r = new GrayRaster(w, h);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        r.set(x, y, back.getRaster().getSample(x, y, 0) / 255f);
      }
    }
    return new GreyPhoto(r);
  }
}
