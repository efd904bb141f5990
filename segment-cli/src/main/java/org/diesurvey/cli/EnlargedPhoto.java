package org.diesurvey.cli;

import java.awt.Point;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.awt.image.ColorModel;
import java.awt.image.Raster;
import java.awt.image.RenderedImage;
import java.awt.image.SampleModel;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Vector;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageOutputStream;

/**
 * A photograph made larger by straight lines between its pixels, which is worked out tile by tile
 * as it is written: photographs of gigapixels for measurements of time and memory.
 */
final class EnlargedPhoto implements RenderedImage {
  private static final int TILE = 512;

  private final BufferedImage in;
  private final int width;
  private final int height;
  private final BufferedImage tile = new BufferedImage(TILE, TILE, BufferedImage.TYPE_3BYTE_BGR);

  private EnlargedPhoto(BufferedImage in, double factor) {
    this.in = in;
    this.width = (int) (in.getWidth() * factor);
    this.height = (int) (in.getHeight() * factor);
  }

  /**
   * Writes a photograph as TIFF in tiles, each a JPEG.
   *
   * @param factor by which both sides grow, 1 or more
   */
  static void write(Path photo, double factor, Path to) throws IOException {
    EnlargedPhoto large = new EnlargedPhoto(ImageIO.read(photo.toFile()), factor);
    ImageWriter writer = ImageIO.getImageWritersByFormatName("tiff").next();
    try (FileImageOutputStream out = new FileImageOutputStream(to.toFile())) {
      writer.setOutput(out);
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setTilingMode(ImageWriteParam.MODE_EXPLICIT);
      param.setTiling(TILE, TILE, 0, 0);
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionType("JPEG");
      param.setCompressionQuality(0.85f);
      writer.write(null, new IIOImage(large, null, null), param);
    } finally {
      writer.dispose();
    }
  }

  private int pixel(double x, double y) {
    double px = Math.max(0, Math.min(in.getWidth() - 1.001, x));
    double py = Math.max(0, Math.min(in.getHeight() - 1.001, y));
    int x0 = (int) px;
    int y0 = (int) py;
    int[] around = new int[4];
    in.getRGB(x0, y0, 2, 2, around, 0, 2);
    double fx = px - x0;
    double fy = py - y0;
    int rgb = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
      double upper = (around[0] >> shift & 0xFF) * (1 - fx) + (around[1] >> shift & 0xFF) * fx;
      double lower = (around[2] >> shift & 0xFF) * (1 - fx) + (around[3] >> shift & 0xFF) * fx;
      rgb |= (int) Math.round(upper * (1 - fy) + lower * fy) << shift;
    }
    return rgb;
  }

  @Override
  public Raster getData(Rectangle where) {
    BufferedImage out = new BufferedImage(where.width, where.height, BufferedImage.TYPE_3BYTE_BGR);
    double sx = in.getWidth() / (double) width;
    double sy = in.getHeight() / (double) height;
    for (int y = 0; y < where.height; y++) {
      for (int x = 0; x < where.width; x++) {
        out.setRGB(x, y, pixel((where.x + x + 0.5) * sx - 0.5, (where.y + y + 0.5) * sy - 0.5));
      }
    }
    return out.getRaster().createTranslatedChild(where.x, where.y);
  }

  @Override
  public Raster getTile(int tileX, int tileY) {
    int w = Math.min(TILE, width - tileX * TILE);
    int h = Math.min(TILE, height - tileY * TILE);
    return getData(new Rectangle(tileX * TILE, tileY * TILE, w, h));
  }

  @Override
  public Raster getData() {
    return getData(new Rectangle(0, 0, width, height));
  }

  @Override
  public WritableRaster copyData(WritableRaster target) {
    Rectangle where = target == null ? new Rectangle(0, 0, width, height) : target.getBounds();
    Raster data = getData(where);
    WritableRaster out =
        target == null
            ? Raster.createWritableRaster(data.getSampleModel(), new Point(where.x, where.y))
            : target;
    out.setRect(data);
    return out;
  }

  @Override
  public ColorModel getColorModel() {
    return tile.getColorModel();
  }

  @Override
  public SampleModel getSampleModel() {
    return tile.getSampleModel();
  }

  @Override
  public int getWidth() {
    return width;
  }

  @Override
  public int getHeight() {
    return height;
  }

  @Override
  public int getMinX() {
    return 0;
  }

  @Override
  public int getMinY() {
    return 0;
  }

  @Override
  public int getNumXTiles() {
    return (width + TILE - 1) / TILE;
  }

  @Override
  public int getNumYTiles() {
    return (height + TILE - 1) / TILE;
  }

  @Override
  public int getMinTileX() {
    return 0;
  }

  @Override
  public int getMinTileY() {
    return 0;
  }

  @Override
  public int getTileWidth() {
    return TILE;
  }

  @Override
  public int getTileHeight() {
    return TILE;
  }

  @Override
  public int getTileGridXOffset() {
    return 0;
  }

  @Override
  public int getTileGridYOffset() {
    return 0;
  }

  @Override
  public Object getProperty(String name) {
    return java.awt.Image.UndefinedProperty;
  }

  @Override
  public String[] getPropertyNames() {
    return new String[0];
  }

  @Override
  public Vector<RenderedImage> getSources() {
    return new Vector<>();
  }
}
