package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.junit.jupiter.api.Test;

class ContextFeaturesTest {
  private static final FeatureTable DIE = TinyModels.die(5);
  private static final TileModel MODEL = TinyModels.random(2);

  private static TileProbabilities halves() {
    float[] p = new float[144 * SurfaceClass.COUNT];
    for (int t = 0; t < 144; t++) {
      int k = t % 12 < 6 ? 0 : 2;
      for (int c = 0; c < SurfaceClass.COUNT; c++) {
        p[t * SurfaceClass.COUNT + c] = c == k ? 0.95f : 0.01f;
      }
    }
    return new TileProbabilities(DIE.grid(), p, new float[144]);
  }

  private static float[] row(int tile, List<DieSide> sides) {
    float[] out = new float[ContextFeatures.SIZE];
    ContextFeatures.of(DIE, halves(), MODEL.first().standardiser(), sides).write(tile, out);
    return out;
  }

  /** Tile 65 is the last of the left half: its own evidence is clear, that around it is mixed. */
  @Test
  void evidence_growsMoreMixedWithTheSquare() {
    float[] row = row(65, List.of());
    double own = row[0] - row[2];
    double near = row[6] - row[8];
    double far = row[12] - row[14];
    assertEquals(Math.log(0.96 / 0.02), own, 1e-5);
    assertEquals(own / 3, near, 1e-4, "two of three columns are of the left half");
    assertTrue(far < near, far + " over 56 um, " + near + " over 24 um");
  }

  /** Half of the die is rows, so seen as a whole no tile's own class shows. */
  @Test
  void evidenceOfTheWholeDie_isTheSameForEveryTile() {
    int at = ContextFeatures.SIZE - 11 - SurfaceClass.COUNT;
    float[] left = row(0, List.of());
    float[] right = row(143, List.of());
    for (int k = 0; k < SurfaceClass.COUNT; k++) {
      assertEquals(left[at + k], right[at + k]);
    }
    assertEquals(left[at], left[at + 2], 1e-5);
    assertEquals((Math.log(0.96) + Math.log(0.02)) / 2, left[at], 1e-5);
  }

  @Test
  void distances_countFromRealEdgesOnly() {
    int at = ContextFeatures.SIZE - 7;
    float[] whole = row(13, List.of(DieSide.values()));
    assertEquals(1 / 75f, whole[at], 1e-6);
    assertEquals(10 / 75f, whole[at + 1], 1e-6);
    assertEquals(1, whole[ContextFeatures.SIZE - 1]);
    float[] crop = row(13, List.of(DieSide.UPPER));
    assertEquals(1, crop[at]);
    assertEquals(1 / 75f, crop[at + 2], 1e-6);
    assertEquals(1 / 75f, crop[at + 4], 1e-6, "nearest edge");
    assertEquals(1, crop[at + 5], "second nearest");
    assertEquals(0, row(13, List.of())[ContextFeatures.SIZE - 1]);
  }

  /** Alike tiles share their evidence, unlike ones keep theirs; means never leave the range. */
  @Test
  void flow_staysWithinAlikeTiles() {
    TileLinks links = TileLinks.of(DIE, MODEL.first().standardiser());
    float[] plane = new float[144];
    for (int t = 0; t < 144; t++) {
      plane[t] = t % 12 < 2 ? 1 : 0;
    }
    links.flow(plane, 40);
    double inside = 0;
    double beyond = 0;
    for (int r = 0; r < 12; r++) {
      inside += (plane[r * 12] + plane[r * 12 + 1]) / 24;
      beyond += (plane[r * 12 + 2] + plane[r * 12 + 3]) / 24;
      for (int c = 0; c < 12; c++) {
        assertTrue(plane[r * 12 + c] >= 0 && plane[r * 12 + c] <= 1.0001);
      }
    }
    assertTrue(inside > beyond + 0.2, inside + " inside, " + beyond + " beyond");
  }
}
