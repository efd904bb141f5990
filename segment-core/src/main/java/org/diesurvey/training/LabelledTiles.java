package org.diesurvey.training;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureFile;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.pipeline.ShownPart;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.tiles.TileGrid;

/** All tiles of one die whose truth is known, and the class of those that are clear samples. */
public final class LabelledTiles {
  /** In place of a class where a tile is no sample. */
  public static final int NO_SAMPLE = -1;

  /** Least share of a tile that one surface must cover for the tile to be a sample of it. */
  public static final double PURE = 0.8;

  /** The same where tiles on the border of a block are wanted as well. */
  public static final double MOSTLY = 0.55;

  /** Points looked at along each side of a tile. */
  private static final int SAMPLES = 5;

  /** Largest damaged share of a sample. */
  private static final double DAMAGED = 0.3;

  /** Contrast over that of bare ground from which a place shows something (own choice). */
  private static final double SHOWN_OVER_GROUND = 1.5;

  /** With fewer bare tiles nothing is known of the ground. */
  private static final int FEWEST_BARE = 30;

  /** Shares are kept in steps of this. */
  private static final int SHARE_STEPS = 100;

  private final String technology;
  private final FeatureTable features;
  private final ShownPart shown;
  private final int[] classes;
  private final double[] purity;

  /** What is known of each pixel of a photograph. */
  public interface Truth {
    /** Ordinal of the surface class that a pixel shows; {@link #NO_SAMPLE} where none is known. */
    int surface(int x, int y);

    /** Whether dirt or glare hides the surface at a pixel. */
    boolean damaged(int x, int y);
  }

  /**
   * @param technology of the die
   * @param shown of it in the photograph
   * @param classes ordinal of the surface class that most of each tile shows
   * @param purity share of the tile that it covers, 0 to 1
   */
  LabelledTiles(
      String technology, FeatureTable features, ShownPart shown, int[] classes, double[] purity) {
    this.technology = technology;
    this.features = features;
    this.shown = shown;
    this.classes = classes;
    this.purity = purity;
  }

  /**
   * Labels the tiles of a die; runs on the calling thread's fork-join pool.
   *
   * @param technology of the die, for leaving out dies by it
   * @param die prepared like a photograph that is surveyed
   * @param truth of the photograph that it was prepared from
   */
  public static LabelledTiles of(String technology, TiledDie die, Truth truth) {
    int[] classes = new int[die.grid().count()];
    double[] purity = new double[classes.length];
    for (int t = 0; t < classes.length; t++) {
      int[] points = points(truth, die.die(), die.grid(), t);
      for (int c = 0; c < points.length; c++) {
        double share = points[c] / (double) (SAMPLES * SAMPLES);
        if (share > purity[t]) {
          purity[t] = share;
          classes[t] = c;
        }
      }
    }
    return new LabelledTiles(
        technology,
        FeatureTable.extract(die.die(), die.grid()),
        ShownPart.of(die.die(), die.grid()),
        classes,
        purity);
  }

  /** Points of a tile that show each surface; none at all where the tile is no sample. */
  private static int[] points(Truth truth, PreparedDie die, TileGrid grid, int tile) {
    int row = tile / grid.columns();
    int column = tile % grid.columns();
    int[] count = new int[SurfaceClass.COUNT];
    int damaged = 0;
    for (int i = 0; i < SAMPLES; i++) {
      for (int j = 0; j < SAMPLES; j++) {
        double x = (column + (i + 0.5) / SAMPLES) * grid.tilePx();
        double y = (row + (j + 0.5) / SAMPLES) * grid.tilePx();
        int px = (int) Math.floor(die.uprightToPhoto().x(x, y));
        int py = (int) Math.floor(die.uprightToPhoto().y(x, y));
        if (px < 0 || py < 0 || px >= die.source().width() || py >= die.source().height()) {
          return new int[SurfaceClass.COUNT];
        }
        int c = truth.surface(px, py);
        if (c < 0) {
          return new int[SurfaceClass.COUNT];
        }
        count[c]++;
        damaged += truth.damaged(px, py) ? 1 : 0;
      }
    }
    return damaged > DAMAGED * SAMPLES * SAMPLES ? new int[SurfaceClass.COUNT] : count;
  }

  /** Technology of the die. */
  public String technology() {
    return technology;
  }

  /** Features of all tiles. */
  public FeatureTable features() {
    return features;
  }

  /** What the photograph shows of the die. */
  public ShownPart shown() {
    return shown;
  }

  /** Sides of the picture that are the die's own edges. */
  public List<DieSide> sides() {
    return shown.edges();
  }

  /**
   * Ordinal of the surface class for each tile, negative for tiles that are no sample.
   *
   * @param least share of a tile that one surface must cover
   */
  public int[] classes(double least) {
    int[] out = classes.clone();
    for (int t = 0; t < out.length; t++) {
      out[t] = purity[t] >= least ? classes[t] : NO_SAMPLE;
    }
    return out;
  }

  /**
   * The same without the parts of macros that show no more than the bare ground of their die: many
   * real and drawn macros are half empty, and what is empty teaches that ground is macro.
   *
   * @param reach tiles to each side that a macro may show something in
   */
  public int[] shownClasses(double least, int reach) {
    int[] out = classes(least);
    double ground = groundContrast(out);
    if (Double.isNaN(ground)) {
      return out;
    }
    for (int t = 0; t < out.length; t++) {
      if (out[t] == SurfaceClass.MACRO.ordinal()
          && contrastAround(t, reach) < SHOWN_OVER_GROUND * ground) {
        out[t] = NO_SAMPLE;
      }
    }
    return out;
  }

  /** Whether a tile shows more than the bare ground of the die does, whatever its class is. */
  public IntPredicate busy(double least) {
    double ground = groundContrast(classes(least));
    return t -> features.contrast(t) > SHOWN_OVER_GROUND * ground;
  }

  /** Median contrast of bare tiles; NaN where there are few. */
  private double groundContrast(int[] labels) {
    double[] bare =
        IntStream.range(0, labels.length)
            .filter(t -> labels[t] == SurfaceClass.BARE.ordinal())
            .mapToDouble(features::contrast)
            .sorted()
            .toArray();
    return bare.length < FEWEST_BARE ? Double.NaN : bare[bare.length / 2];
  }

  private double contrastAround(int tile, int reach) {
    int columns = features.grid().columns();
    int row = tile / columns;
    int column = tile % columns;
    double sum = 0;
    int n = 0;
    for (int r = Math.max(0, row - reach);
        r <= Math.min(features.grid().rows() - 1, row + reach);
        r++) {
      for (int c = Math.max(0, column - reach); c <= Math.min(columns - 1, column + reach); c++) {
        sum += features.contrast(r * columns + c);
        n++;
      }
    }
    return sum / n;
  }

  /** Writes all of it; the stream stays open. */
  public void write(DataOutputStream out) throws IOException {
    out.writeUTF(technology);
    out.writeByte(shown.edges().size());
    for (DieSide side : shown.edges()) {
      out.writeByte(side.ordinal());
    }
    out.writeByte(shown.outline().size());
    for (PixelPoint corner : shown.outline()) {
      out.writeDouble(corner.x());
      out.writeDouble(corner.y());
    }
    FeatureFile.write(features, out);
    for (int t = 0; t < classes.length; t++) {
      out.writeBoolean(shown.tiles()[t]);
      out.writeByte(classes[t]);
      out.writeByte((int) Math.round(purity[t] * SHARE_STEPS));
    }
  }

  /** Reads what {@link #write} wrote. */
  public static LabelledTiles read(DataInputStream in) throws IOException {
    String technology = in.readUTF();
    List<DieSide> sides = new ArrayList<>();
    for (int n = in.readByte(); n > 0; n--) {
      sides.add(DieSide.values()[in.readByte()]);
    }
    List<PixelPoint> outline = new ArrayList<>();
    for (int n = in.readByte(); n > 0; n--) {
      outline.add(new PixelPoint(in.readDouble(), in.readDouble()));
    }
    FeatureTable features = FeatureFile.read(in);
    int n = features.grid().count();
    boolean[] onDie = new boolean[n];
    int[] classes = new int[n];
    double[] purity = new double[n];
    for (int t = 0; t < n; t++) {
      onDie[t] = in.readBoolean();
      classes[t] = in.readByte();
      purity[t] = in.readByte() / (double) SHARE_STEPS;
    }
    return new LabelledTiles(
        technology, features, new ShownPart(onDie, sides, outline), classes, purity);
  }
}
