package org.diesurvey.cli;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import javax.imageio.ImageIO;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.scoring.Truth;

/** A photograph and its truth as a coarser objective would have given them, for scores. */
final class ReducedPhoto {
  private ReducedPhoto() {}

  /** How many pixels are averaged along each side to come to a pitch; at least 1. */
  static int factor(Truth truth, double umPerPx) {
    return Math.max(1, (int) Math.round(umPerPx / truth.umPerPx().orElseThrow()));
  }

  /** Means over squares of pixels, as PNG; the rest at the right and lower border is left out. */
  static void write(Path photo, int factor, Path to) throws IOException {
    BufferedImage in = ImageIO.read(photo.toFile());
    int w = in.getWidth() / factor;
    int h = in.getHeight() / factor;
    BufferedImage out = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
    int[] strip = new int[in.getWidth() * factor];
    for (int y = 0; y < h; y++) {
      in.getRGB(0, y * factor, in.getWidth(), factor, strip, 0, in.getWidth());
      for (int x = 0; x < w; x++) {
        int rgb = 0;
        for (int shift = 0; shift <= 16; shift += 8) {
          int sum = 0;
          for (int i = 0; i < factor * factor; i++) {
            sum += strip[i / factor * in.getWidth() + x * factor + i % factor] >> shift & 0xFF;
          }
          rgb |= Math.round(sum / (float) (factor * factor)) << shift;
        }
        out.setRGB(x, y, rgb);
      }
    }
    ImageIO.write(out, "png", to.toFile());
  }

  /** The label in the middle of each square; outlines and counts are not carried over. */
  static Truth truth(Truth truth, int factor) {
    return new Truth(
        truth.name(),
        map(truth.labels(), factor),
        OptionalDouble.of(truth.umPerPx().orElseThrow() * factor),
        List.of(),
        List.of(),
        OptionalInt.empty(),
        OptionalLong.empty(),
        OptionalDouble.empty());
  }

  static LabelRaster map(LabelRaster in, int factor) {
    LabelRaster out = new LabelRaster(in.width() / factor, in.height() / factor);
    for (int y = 0; y < out.height(); y++) {
      for (int x = 0; x < out.width(); x++) {
        int at = (y * factor + factor / 2) * in.width() + x * factor + factor / 2;
        out.array()[y * out.width() + x] = in.array()[at];
      }
    }
    return out;
  }
}
