package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.raster.PixelRect;

/** Minimal first form: whole image through ImageIO. */
public final class DiePhoto implements AutoCloseable {
  private final PhotoInfo info;
  private final PixelSource pixels;

  private DiePhoto(PhotoInfo info, PixelSource pixels) {
    this.info = info;
    this.pixels = pixels;
  }

  /** Opens. */
  public static DiePhoto open(Path path) {
    try {
      byte[] bytes = Files.readAllBytes(path);
      ImageIO.setUseCache(false);
      BufferedImage image = ImageIO.read(path.toFile());
      Raster r = image.getRaster();
      String sha = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
      return new DiePhoto(
          new PhotoInfo(
              path.getFileName().toString(),
              sha,
              bytes.length,
              "JPEG",
              r.getWidth(),
              r.getHeight(),
              8,
              r.getNumBands(),
              Optional.empty()),
          new Memory(r));
    } catch (IOException | java.security.NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private record Memory(Raster raster) implements PixelSource {
    @Override
    public int width() {
      return raster.getWidth();
    }

    @Override
    public int height() {
      return raster.getHeight();
    }

    @Override
    public void readGray(PixelRect w, float[] t) {
      int bands = raster.getNumBands();
      int[] px = raster.getPixels(w.x(), w.y(), w.width(), w.height(), (int[]) null);
      for (int i = 0, p = 0; i < w.width() * w.height(); i++, p += bands) {
        t[i] =
            bands < 3
                ? px[p] / 255f
                : (0.299f * px[p] + 0.587f * px[p + 1] + 0.114f * px[p + 2]) / 255f;
      }
    }

    @Override
    public void readRgb(PixelRect w, int[] t) {
      int bands = raster.getNumBands();
      int[] px = raster.getPixels(w.x(), w.y(), w.width(), w.height(), (int[]) null);
      for (int i = 0, p = 0; i < w.width() * w.height(); i++, p += bands) {
        t[i] = bands < 3 ? px[p] * 0x10101 : px[p] << 16 | px[p + 1] << 8 | px[p + 2];
      }
    }

    @Override
    public void close() {}
  }

  /** Info. */
  public PhotoInfo info() {
    return info;
  }

  /** Pixels. */
  public PixelSource pixels() {
    return pixels;
  }

  /** Content check. */
  public void requireContent() {}

  @Override
  public void close() {}
}
