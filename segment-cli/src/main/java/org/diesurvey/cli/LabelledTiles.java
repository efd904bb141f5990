package org.diesurvey.cli;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureFile;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DieSide;

/** All tiles of one drawn die, and the class of those that are clear samples. */
final class LabelledTiles {
  static final int NO_SAMPLE = -1;

  /** Contrast over that of bare ground from which a place shows something (own choice). */
  private static final double SHOWN_OVER_GROUND = 1.5;

  /** With fewer bare tiles nothing is known of the ground. */
  private static final int FEWEST_BARE = 30;

  /** Shares are kept in steps of this. */
  private static final int SHARE_STEPS = 100;

  private final String technology;
  private final FeatureTable features;
  private final boolean[] onDie;
  private final List<DieSide> sides;
  private final int[] classes;
  private final double[] purity;

  /**
   * @param technology of the die
   * @param onDie tiles that lie on it
   * @param sides of the picture that are the die's own edges
   * @param classes ordinal of the surface class that most of each tile shows
   * @param purity share of the tile that it covers, 0 to 1
   */
  LabelledTiles(
      String technology,
      FeatureTable features,
      boolean[] onDie,
      List<DieSide> sides,
      int[] classes,
      double[] purity) {
    this.technology = technology;
    this.features = features;
    this.onDie = onDie;
    this.sides = List.copyOf(sides);
    this.classes = classes;
    this.purity = purity;
  }

  String technology() {
    return technology;
  }

  FeatureTable features() {
    return features;
  }

  boolean[] onDie() {
    return onDie;
  }

  List<DieSide> sides() {
    return sides;
  }

  /**
   * Ordinal of the surface class for each tile, negative for tiles that are no sample.
   *
   * @param least share of a tile that one surface must cover
   */
  int[] classes(double least) {
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
  int[] shownClasses(double least, int reach) {
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
  IntPredicate busy(double least) {
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

  /** Writes a file that appears whole or not at all. */
  void write(Path file) throws IOException {
    Path fresh = file.resolveSibling(file.getFileName() + ".part");
    try (DataOutputStream out =
        new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(fresh), 1 << 16))) {
      out.writeUTF(technology);
      out.writeByte(sides.size());
      for (DieSide side : sides) {
        out.writeByte(side.ordinal());
      }
      FeatureFile.write(features, out);
      for (int t = 0; t < classes.length; t++) {
        out.writeBoolean(onDie[t]);
        out.writeByte(classes[t]);
        out.writeByte((int) Math.round(purity[t] * SHARE_STEPS));
      }
    }
    Files.move(fresh, file);
  }

  static LabelledTiles read(Path file) throws IOException {
    try (DataInputStream in =
        new DataInputStream(new BufferedInputStream(Files.newInputStream(file), 1 << 16))) {
      String technology = in.readUTF();
      List<DieSide> sides = new ArrayList<>();
      for (int n = in.readByte(); n > 0; n--) {
        sides.add(DieSide.values()[in.readByte()]);
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
      return new LabelledTiles(technology, features, onDie, sides, classes, purity);
    }
  }
}
