package org.diesurvey.archive.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.files.ReadFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArchiveFolderTest {
  @TempDir Path folder;

  /** A folder of somebody's photographs that happens to be called photos was emptied. */
  @Test
  void photographsInAFolderCalledPhotos_areNoArchive() throws IOException {
    Path photo = Files.createDirectories(folder.resolve("lot7/photos")).resolve("die.png");
    Files.writeString(photo, "mine");
    assertThrows(
        DieInputException.class,
        () -> ArchiveFolder.open(folder.resolve("lot7"), ReadFiles.NONE, ArchivePages.ALL));
    assertEquals("mine", Files.readString(photo));
  }

  @Test
  void aLinkCalledPhotos_isNoArchive() throws IOException {
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
    Files.createDirectory(folder.resolve("lot8"));
    Files.createSymbolicLink(folder.resolve("lot8/photos"), elsewhere);
    assertThrows(
        DieInputException.class,
        () -> ArchiveFolder.open(folder.resolve("lot8"), ReadFiles.NONE, ArchivePages.ALL));
    assertTrue(Files.isDirectory(elsewhere));
  }
}
