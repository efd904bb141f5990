package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.awt.image.ComponentSampleModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferByte;
import java.awt.image.DataBufferUShort;
import java.awt.image.IndexColorModel;
import java.awt.image.WritableRaster;
import java.util.Optional;
import org.diesurvey.photo.file.SampleBlock;

/**
 * A decoded picture as 8- or 16-bit samples: those that are stored so are kept, palettes, packed
 * bits and packed colours are written out as 8-bit RGB.
 *
 * @param pixels the samples
 * @param bits of a sample, 8 or 16
 * @param conversion what was done, if anything
 */
record Expanded(StoredPixels pixels, int bits, Optional<String> conversion) {
  static Expanded of(BufferedImage image) {
    if (image.getRaster() instanceof ScratchRaster scratch) {
      int bits = image.getRaster().getTransferType() == DataBuffer.TYPE_BYTE ? 8 : 16;
      return new Expanded(scratch.pixels(), bits, Optional.empty());
    }
    int w = image.getWidth();
    int h = image.getHeight();
    if (asStored(image)) {
      SampleBlock samples = stored(image.getRaster());
      return new Expanded(new DecodedPixels(w, h, samples), samples.bits(), Optional.empty());
    }
    byte[] rgb = new byte[Math.multiplyExact(Math.multiplyExact(w, h), 3)];
    int[] row = new int[w];
    for (int y = 0, at = 0; y < h; y++) {
      image.getRGB(0, y, w, 1, row, 0, w);
      for (int c : row) {
        rgb[at++] = (byte) (c >> 16);
        rgb[at++] = (byte) (c >> 8);
        rgb[at++] = (byte) c;
      }
    }
    SampleBlock block = SampleBlock.of8Bit(rgb, SampleBlock.Order.interleaved(w, 3));
    String from =
        image.getColorModel() instanceof IndexColorModel palette
            ? "A palette of " + palette.getMapSize() + " colours was"
            : "Packed samples were";
    return new Expanded(
        new DecodedPixels(w, h, block), 8, Optional.of(from + " written out as 8-bit RGB"));
  }

  /** Whether the samples of a picture are levels of 8 or 16 bit, one beside the other. */
  static boolean asStored(BufferedImage image) {
    DataBuffer data = image.getRaster().getDataBuffer();
    return !(image.getColorModel() instanceof IndexColorModel)
        && image.getSampleModel() instanceof ComponentSampleModel
        && data.getNumBanks() == 1
        && (data instanceof DataBufferByte || data instanceof DataBufferUShort);
  }

  private static SampleBlock stored(WritableRaster raster) {
    DataBuffer data = raster.getDataBuffer();
    ComponentSampleModel model = (ComponentSampleModel) raster.getSampleModel();
    int[] offsets = model.getBandOffsets();
    int base =
        data.getOffset()
            - raster.getSampleModelTranslateX() * model.getPixelStride()
            - raster.getSampleModelTranslateY() * model.getScanlineStride();
    boolean colour = offsets.length >= 3;
    SampleBlock.Order order =
        new SampleBlock.Order(
            base + offsets[0],
            base + offsets[colour ? 1 : 0],
            base + offsets[colour ? 2 : 0],
            model.getScanlineStride(),
            model.getPixelStride());
    return data instanceof DataBufferByte bytes
        ? SampleBlock.of8Bit(bytes.getData(), order)
        : SampleBlock.of16Bit(((DataBufferUShort) data).getData(), order);
  }
}
