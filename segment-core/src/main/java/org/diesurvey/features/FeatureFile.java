package org.diesurvey.features;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;

/**
 * A feature table on disk, so that a training run need not work it out again. Numbers are kept with
 * the upper 16 of their 32 bits, which is finer than the noise of any feature. Periods are not
 * kept.
 */
public final class FeatureFile {
  private FeatureFile() {}

  /** Writes the table; the stream stays open. */
  public static void write(FeatureTable table, DataOutputStream out) throws IOException {
    TileGrid grid = table.grid();
    out.writeDouble(grid.tileUm());
    out.writeDouble(grid.pitchUm());
    out.writeInt(grid.width());
    out.writeInt(grid.height());
    FeatureTable.Vectors vectors = table.vectors();
    for (int t = 0; t < grid.count(); t++) {
      out.writeBoolean(table.damaged(t));
      writeRounded(table.contrast(t), out);
      for (float v : vectors.of(t)) {
        writeRounded(v, out);
      }
    }
    FineMap fine = table.fine();
    for (int r = 0; r < fine.rows(); r++) {
      for (int c = 0; c < fine.columns(); c++) {
        writeRounded(fine.grey(r, c), out);
        writeRounded(fine.activity(r, c), out);
      }
    }
    LabelRaster hidden = table.damage().mask();
    out.writeInt(hidden.width());
    out.writeInt(hidden.height());
    out.writeDouble(table.damage().cellUm());
    out.write(hidden.array());
  }

  /** Reads what {@link #write} wrote with the same schema. */
  public static FeatureTable read(DataInputStream in) throws IOException {
    TileGrid grid = new TileGrid(in.readDouble(), in.readDouble(), in.readInt(), in.readInt());
    int features = FeatureSchema.CURRENT.size();
    RowStore vectors = RowStore.inMemory(grid.rows(), grid.columns() * features);
    float[] vector = new float[features];
    float[] contrast = new float[grid.count()];
    boolean[] damaged = new boolean[grid.count()];
    for (int t = 0; t < contrast.length; t++) {
      damaged[t] = in.readBoolean();
      contrast[t] = readRounded(in);
      for (int f = 0; f < features; f++) {
        vector[f] = readRounded(in);
      }
      vectors.put(t / grid.columns(), t % grid.columns() * features, vector, 0, features);
    }
    FineMap fine = new FineMap(grid);
    for (int r = 0; r < fine.rows(); r++) {
      for (int c = 0; c < fine.columns(); c++) {
        fine.set(r, c, readRounded(in), readRounded(in));
      }
    }
    int columns = in.readInt();
    int rows = in.readInt();
    double cellUm = in.readDouble();
    LabelRaster hidden =
        LabelRaster.over(columns, rows, in.readNBytes(Math.multiplyExact(columns, rows)));
    return FeatureTable.restored(
        grid, vectors, contrast, damaged, fine, DamageMap.of(hidden, cellUm));
  }

  private static void writeRounded(float v, DataOutputStream out) throws IOException {
    // Half of the last kept bit is added, so that cutting rounds; infinity and NaN stay.
    int bits = Float.floatToIntBits(v);
    out.writeShort(Float.isFinite(v) ? (bits + 0x7FFF + ((bits >>> 16) & 1)) >>> 16 : bits >>> 16);
  }

  private static float readRounded(DataInputStream in) throws IOException {
    return Float.intBitsToFloat(in.readUnsignedShort() << 16);
  }
}
