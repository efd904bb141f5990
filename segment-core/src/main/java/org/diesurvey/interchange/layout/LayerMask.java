package org.diesurvey.interchange.layout;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.interchange.Refused;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PlaneTransform;

/**
 * A block of a layout as a picture of its layers, with a record of what it is: what a drawn die can
 * be filled with, so that the program learns from layouts that somebody holds.
 *
 * <p>The picture has 8 bits a pixel, a bit for each layer ({@link LayoutBit}); a bit is set where
 * the layer covers half of the pixel or more, its shapes taken together. Row 0 is the top of the
 * layout; pixels are counted from its lower left corner.
 */
public final class LayerMask {
  /** Largest picture, pixels. */
  private static final double MOST_PX = 1e8;

  /** Rounding must not decide a pixel that is covered by exactly half. */
  private static final double HALF = 0.5 - 1e-9;

  private static final int ALL_BITS = 63;

  private final LabelRaster picture;
  private final LayerMaskSettings settings;
  private final String cell;
  private final LayoutFile file;
  private final Optional<LayoutWindow> wholeBlock;
  private final List<LayoutCells.Box> arrays;
  private final List<LayoutCells.Box> bits;
  private final double[] areasUm2;

  private LayerMask(
      LabelRaster picture,
      LayerMaskSettings settings,
      String cell,
      LayoutFile file,
      Optional<LayoutWindow> wholeBlock,
      List<LayoutCells.Box> arrays,
      List<LayoutCells.Box> bits,
      double[] areasUm2) {
    this.picture = picture;
    this.settings = settings;
    this.cell = cell;
    this.file = file;
    this.wholeBlock = wholeBlock;
    this.arrays = arrays;
    this.bits = bits;
    this.areasUm2 = areasUm2;
  }

  /**
   * Makes a mask of a structure.
   *
   * @param layout a GDSII stream, which may be packed with gzip
   * @throws DieInputException if the file cannot be read, is damaged, lacks the structure or is too
   *     large, with one sentence
   */
  public static LayerMask of(Path layout, LayerMaskSettings settings) {
    String place = layout.toString();
    LayoutFile file = LayoutFile.of(layout);
    LayoutCells cells = LayoutCells.read(file.stream(), settings.layers(), place);
    String name = name(cells, settings, place);
    LayoutWindow block =
        cells
            .box(name, ALL_BITS)
            .filter(b -> b.x1() > b.x0() && b.y1() > b.y0())
            .map(b -> um(b, cells.umPerUnit()))
            .orElseThrow(
                () ->
                    Refused.file(
                        place,
                        "the structure '"
                            + Refused.quoted(name)
                            + "' has no shape on a layer of the layer map; check the map"));
    LayoutWindow seen = settings.window().orElse(block);
    double px = settings.umPerPx();
    double w = Math.max(1, Math.rint(seen.width() / px));
    double h = Math.max(1, Math.rint(seen.height() / px));
    if (w * h > MOST_PX) {
      throw Refused.file(
          place,
          String.format(
              Locale.ROOT,
              "the mask would have %.0f x %.0f px, more than 100 MP; name a window, a smaller"
                  + " structure or larger pixels",
              w,
              h));
    }
    double scale = cells.umPerUnit() / px;
    PlaneTransform toPx =
        new PlaneTransform(scale, 0, -seen.left() / px, 0, -scale, h + seen.low() / px);
    LayoutFlattening flat =
        LayoutFlattening.of(
            cells, name, toPx, new LayoutCells.Box(0, 0, w, h), settings.bitCells(), place);
    LabelRaster picture = new LabelRaster((int) w, (int) h);
    double[] areas = new double[LayoutBit.values().length];
    for (LayoutBit b : LayoutBit.values()) {
      areas[b.ordinal()] = draw(flat.edges(b), b, picture) * px * px;
    }
    List<LayoutCells.Box> bits = flat.bits().stream().map(b -> scaled(b, px)).toList();
    if (!settings.bitCells().isEmpty() && bits.isEmpty()) {
      throw Refused.file(
          place,
          "the structure '"
              + Refused.quoted(name)
              + "' places no bit cell "
              + Refused.quoted(String.join(", ", settings.bitCells()))
              + " here; check the name");
    }
    return new LayerMask(
        picture,
        settings,
        name,
        file.withoutStream(),
        covers(seen, block) ? Optional.empty() : Optional.of(block),
        LayoutArrays.of(bits, w * px, h * px),
        bits,
        areas);
  }

  private static boolean covers(LayoutWindow seen, LayoutWindow block) {
    return seen.left() <= block.left()
        && seen.low() <= block.low()
        && seen.right() >= block.right()
        && seen.high() >= block.high();
  }

  private static LayoutWindow um(LayoutCells.Box b, double um) {
    return new LayoutWindow(b.x0() * um, b.y0() * um, b.x1() * um, b.y1() * um);
  }

  private static LayoutCells.Box scaled(LayoutCells.Box b, double by) {
    return new LayoutCells.Box(b.x0() * by, b.y0() * by, b.x1() * by, b.y1() * by);
  }

  private static String name(LayoutCells cells, LayerMaskSettings settings, String place) {
    List<String> tops = cells.tops();
    String some = Refused.quoted(String.join(", ", tops));
    if (settings.cell().isPresent()) {
      String name = settings.cell().get();
      if (cells.cell(name).isEmpty()) {
        throw Refused.file(
            place,
            "there is no structure '" + Refused.quoted(name) + "'; the top structures are " + some);
      }
      return name;
    }
    if (tops.size() != 1) {
      throw Refused.file(
          place,
          tops.isEmpty()
              ? "the layout has no top structure"
              : "the layout has " + tops.size() + " top structures; name one of them: " + some);
    }
    return tops.get(0);
  }

  /** Sets a bit of the picture; returns the exact area of the layer in square pixels. */
  private static double draw(LayoutEdges edges, LayoutBit bit, LabelRaster picture) {
    double[] sum = new double[1];
    LayoutCoverage.rows(
        edges,
        picture.width(),
        picture.height(),
        (y, share) -> {
          for (int x = 0; x < share.length; x++) {
            sum[0] += share[x];
            if (share[x] >= HALF) {
              picture.set(x, y, picture.get(x, y) | bit.bit());
            }
          }
        });
    return sum[0];
  }

  /** The picture; a pixel is a sum of {@link LayoutBit#bit}. */
  public LabelRaster picture() {
    return picture;
  }

  /** The structure that was drawn. */
  public String cell() {
    return cell;
  }

  /** Width of the picture, um. */
  public double widthUm() {
    return picture.width() * settings.umPerPx();
  }

  /** Height of the picture, um. */
  public double heightUm() {
    return picture.height() * settings.umPerPx();
  }

  /** Exact area of a layer in the picture, um2; overlaps count once. */
  public double areaUm2(LayoutBit bit) {
    return areasUm2[bit.ordinal()];
  }

  /** How many bit-cell arrays were found. */
  public int arrays() {
    return arrays.size();
  }

  /** How many bit cells have their middle in the picture. */
  public int bitCells() {
    return (int)
        bits.stream()
            .filter(
                b ->
                    b.x0() + b.x1() > 0
                        && b.y0() + b.y1() > 0
                        && b.x0() + b.x1() < 2 * widthUm()
                        && b.y0() + b.y1() < 2 * heightUm())
            .count();
  }

  /** The picture as a PNG of one channel with 8 bits. */
  public byte[] png() {
    BufferedImage image =
        new BufferedImage(picture.width(), picture.height(), BufferedImage.TYPE_BYTE_GRAY);
    byte[] data = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    System.arraycopy(picture.array(), 0, data, 0, data.length);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  /**
   * The record beside the picture, JSON.
   *
   * @param name of the block
   */
  public byte[] json(String name) {
    return LayoutRecord.json(this, name);
  }

  LayerMaskSettings settings() {
    return settings;
  }

  LayoutFile file() {
    return file;
  }

  /** The whole structure, um, where the picture shows a part of it. */
  Optional<LayoutWindow> wholeBlock() {
    return wholeBlock;
  }

  List<LayoutCells.Box> arrayBoxes() {
    return arrays;
  }

  List<LayoutCells.Box> bits() {
    return bits;
  }
}
