package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.SplittableRandom;
import org.diesurvey.features.damage.DamageKind;
import org.diesurvey.features.damage.DamageMap;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

class FeatureFileTest {
  private static final TileGrid GRID = new TileGrid(8, 0.5, 70, 50);

  private static FeatureTable table() {
    SplittableRandom random = new SplittableRandom(5);
    float[][] rows = new float[GRID.count()][FeatureSchema.CURRENT.size()];
    float[] contrast = new float[rows.length];
    boolean[] damaged = new boolean[rows.length];
    for (int t = 0; t < rows.length; t++) {
      for (int f = 0; f < rows[t].length; f++) {
        rows[t][f] = f % 7 == 0 ? Float.NaN : (float) random.nextDouble(-40, 40);
      }
      contrast[t] = (float) random.nextDouble();
      damaged[t] = t % 3 == 0;
    }
    FineMap fine = new FineMap(GRID);
    for (int r = 0; r < fine.rows(); r++) {
      for (int c = 0; c < fine.columns(); c++) {
        fine.set(r, c, (float) random.nextDouble(), (float) random.nextDouble());
      }
    }
    RowStore vectors =
        RowStore.inMemory(GRID.rows(), GRID.columns() * FeatureSchema.CURRENT.size());
    for (int t = 0; t < rows.length; t++) {
      int at = t % GRID.columns() * rows[t].length;
      vectors.put(t / GRID.columns(), at, rows[t], 0, rows[t].length);
    }
    return FeatureTable.restored(GRID, vectors, contrast, damaged, fine, damage());
  }

  /** A dark place and a missing field. */
  private static DamageMap damage() {
    byte[] codes = new byte[20 * 12];
    for (int i = 0; i < 4; i++) {
      codes[20 * (3 + i) + 5] = 2;
      codes[20 * (3 + i) + 6] = 2;
      codes[20 * (2 + i) + 15] = 3;
      codes[20 * (2 + i) + 16] = 3;
    }
    return DamageMap.of(LabelRaster.over(20, 12, codes), 2);
  }

  private static byte[] bytes(FeatureTable table) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    FeatureFile.write(table, new DataOutputStream(out));
    return out.toByteArray();
  }

  /** Sixteen bits of a float keep eight significant ones: half a step is at most 0.4 %. */
  @Test
  void whatIsRead_isWhatWasWrittenButForTheLowerHalfOfEachNumber() throws IOException {
    FeatureTable table = table();
    FeatureTable back =
        FeatureFile.read(new DataInputStream(new ByteArrayInputStream(bytes(table))));
    assertEquals(GRID, back.grid());
    for (int t = 0; t < GRID.count(); t++) {
      assertEquals(table.damaged(t), back.damaged(t));
      assertEquals(table.contrast(t), back.contrast(t), 0.004 * table.contrast(t));
      for (int f = 0; f < table.vectors().of(t).length; f++) {
        float v = table.vectors().of(t)[f];
        assertTrue(
            Float.isNaN(v)
                ? Float.isNaN(back.vectors().of(t)[f])
                : Math.abs(v - back.vectors().of(t)[f]) <= 0.004 * Math.abs(v));
      }
    }
    assertEquals(table.fine().grey(3, 4), back.fine().grey(3, 4), 0.004);
    assertEquals(table.fine().activity(5, 2), back.fine().activity(5, 2), 0.004);
    assertEquals(2, back.damage().places().size());
    assertEquals(table.damage().places(), back.damage().places());
    assertEquals(DamageKind.MISSING, back.damage().at(3, 15).orElseThrow());
    assertFalse(back.periodOfTheMosaic(new int[] {0, 1}));
  }

  @Test
  void whatWasReadOnce_isWrittenAsTheSameBytes() throws IOException {
    byte[] once = bytes(table());
    byte[] twice = bytes(FeatureFile.read(new DataInputStream(new ByteArrayInputStream(once))));
    assertArrayEquals(once, twice);
  }
}
