package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SurveyFoldersTest {
  @TempDir Path temp;

  @ParameterizedTest
  @CsvSource({
    "die.png, die",
    "tray/die.03.tif, die.03",
    "die, die",
    ".png, .png",
    "tray/.., photo",
  })
  void folder_isNamedLikeThePhotograph(String photo, String name) {
    assertEquals(name, SurveyFolders.stem(Path.of(photo)));
  }

  @Test
  void secondPhotographOfAName_isRefusedAndNamesTheFirst() {
    SurveyFolders folders = new SurveyFolders(temp);
    SurveyFolders.Place first = folders.place(Path.of("a/die.png"));
    assertTrue(first.refusal().isEmpty());
    folders.taken(first);
    String sentence = folders.place(Path.of("b/Die.tif")).refusal().orElseThrow().getMessage();
    assertTrue(sentence.contains(Path.of("a/die.png").toString()), sentence);
    assertTrue(sentence.contains(Path.of("b/Die.tif").toString()), sentence);
  }

  @Test
  void rejectedPhotograph_leavesTheFolderToTheNextOfItsName() {
    SurveyFolders folders = new SurveyFolders(temp);
    assertTrue(folders.place(Path.of("die.webp")).refusal().isEmpty());
    assertTrue(folders.place(Path.of("die.png")).refusal().isEmpty());
  }

  @Test
  void folderOfOtherThings_isLeftAlone() throws IOException {
    Files.createDirectory(temp.resolve("die"));
    Files.writeString(temp.resolve("die").resolve("notes.txt"), "mine");
    SurveyFolders.Place place = new SurveyFolders(temp).place(Path.of("die.png"));
    assertEquals(Reason.OUTPUT_NOT_WRITABLE, place.refusal().orElseThrow().reason());
  }

  @Test
  void outputThatIsAFile_isRefused() throws IOException {
    Path file = Files.writeString(temp.resolve("file"), "text");
    for (Path out : List.of(file, file.resolve("below"))) {
      DieInputException e = assertThrows(DieInputException.class, () -> SurveyFolders.prepare(out));
      assertEquals(Reason.OUTPUT_NOT_WRITABLE, e.reason());
      assertTrue(e.getMessage().contains(out.toString()), e.getMessage());
    }
  }

  @Test
  void preparedFolder_isEmptyAndRemovedIfNothingCame() {
    Path out = temp.resolve("new/surveys");
    assertTrue(SurveyFolders.prepare(out));
    assertFalse(SurveyFolders.prepare(out));
    SurveyFolders.removeIfEmpty(out);
    assertFalse(Files.exists(out));
  }
}
