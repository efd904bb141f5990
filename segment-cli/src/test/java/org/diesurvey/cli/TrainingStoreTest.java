package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.training.LabelledTiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TrainingStoreTest {
  private static final double MEGAPIXELS = 0.3;

  @TempDir Path folder;

  private static LabelledTiles draw(long seed) {
    return TrainingDies.draw(seed, TrainingDies.options(seed, MEGAPIXELS), Optional.empty());
  }

  private TrainingStore store() {
    return TrainingStore.open(folder.resolve("dies"), MEGAPIXELS, Optional.empty());
  }

  @Test
  void aDieThatWasKept_isNotMissingAndComesBackAsItWas() {
    TrainingStore store = store();
    LabelledTiles drawn = draw(4);
    store.keep(4, seed -> drawn);
    assertEquals(List.of(3L, 5L), store().missing(List.of(3, 4, 5)));
    LabelledTiles back = store().read(4);
    assertEquals(drawn.technology(), back.technology());
    assertEquals(drawn.sides(), back.sides());
    assertArrayEquals(drawn.classes(0.8), back.classes(0.8));
    assertArrayEquals(drawn.shown().tiles(), back.shown().tiles());
    assertEquals(drawn.shown().outline(), back.shown().outline());
    assertEquals(drawn.features().damage().places(), back.features().damage().places());
    assertEquals(drawn.features().grid(), back.features().grid());
  }

  @Test
  void aFolderOfAnotherWayOfDrawing_isRefused() {
    store();
    Path dies = folder.resolve("dies");
    assertThrows(
        WrongOption.class, () -> TrainingStore.open(dies, 2 * MEGAPIXELS, Optional.empty()));
  }

  @Test
  void aFolderOfOtherFiles_isRefusedAndLeftAlone() throws IOException {
    Path notes = Files.createDirectory(folder.resolve("dies")).resolve("notes.txt");
    Files.writeString(notes, "mine");
    assertThrows(WrongOption.class, this::store);
    assertEquals("mine", Files.readString(notes));
  }

  @Test
  void removing_leavesNothingOfItsOwn() {
    TrainingStore store = store();
    store.keep(4, TrainingStoreTest::draw);
    store.remove(List.of(4));
    assertTrue(Files.notExists(folder.resolve("dies")));
  }

  /** What a macro shows is no more than the ground where its contrast is that of bare tiles. */
  @Test
  void emptyPartsOfMacros_areNoSamples() {
    for (long seed = 0; seed < 12; seed++) {
      LabelledTiles die = draw(seed);
      int[] all = die.classes(0.8);
      int[] shown = die.shownClasses(0.8, 1);
      long macros = count(all, SurfaceClass.MACRO.ordinal());
      assertTrue(count(shown, SurfaceClass.MACRO.ordinal()) <= macros);
      assertEquals(
          count(all, SurfaceClass.BARE.ordinal()), count(shown, SurfaceClass.BARE.ordinal()));
    }
  }

  private static long count(int[] labels, int of) {
    return Arrays.stream(labels).filter(c -> c == of).count();
  }
}
