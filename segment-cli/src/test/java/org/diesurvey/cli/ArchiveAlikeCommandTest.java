package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArchiveAlikeCommandTest {
  @TempDir Path temp;

  @Test
  void earlierRevision_comesFirst_andTheSamePhotographIsLeftOut() throws Exception {
    Path tray = Files.createDirectories(temp.resolve("tray"));
    Path later = null;
    for (long seed : List.of(620003L, 620004L, 620007L)) {
      RevisionPair pair =
          RevisionPair.draw(
              seed, RevisionOptions.defaults().withMaxMegapixels(1.2).withChanges(1, 2));
      DieFiles.write(pair.first(), temp.resolve("drawn"), "die-" + seed, DieFiles.Format.PNG);
      Files.move(temp.resolve("drawn/die-" + seed + ".png"), tray.resolve("die-" + seed + ".png"));
      if (seed == 620004L) {
        later = DieFiles.write(pair.second(), temp.resolve("later"), "b", DieFiles.Format.PNG);
      }
    }
    Path archive = temp.resolve("archive");
    Call batch = Call.of("batch", tray, "--um-per-px", "1+-0.05", "--archive", archive, "--quiet");
    assertEquals(0, batch.code(), batch.err());
    Call call = Call.of("archive", "alike", archive, later, "--um-per-px", "1+-0.05");
    assertEquals(0, call.code(), call.err());
    String[] lines = call.out().split("\r\n");
    assertEquals("score,lies,file_name,die_name,revision,folder,sha256", lines[0]);
    assertEquals(4, lines.length, call.out());
    assertTrue(lines[1].contains("die-620004.png"), call.out());
    // Asked for a photograph that the archive holds, only the others are told.
    Call own =
        Call.of(
            "archive",
            "alike",
            archive,
            tray.resolve("die-620003.png"),
            "--um-per-px",
            "1",
            "--most",
            "1");
    assertEquals(0, own.code(), own.err());
    assertEquals(2, own.out().split("\r\n").length, own.out());
    assertTrue(!own.out().contains("die-620003"), own.out());
  }

  @Test
  void folderWithoutArchive_andScalesForSurveys_areSaid() throws Exception {
    Call none = Call.of("archive", "alike", temp, SmallModel.photo(), "--no-scale");
    assertEquals(2, none.code());
    assertTrue(none.err().contains("there is no archive here"), none.err());
    Call many = Call.of("archive", "alike", temp, SmallModel.photo(), "--most", "0");
    assertEquals(2, many.code());
    Files.createDirectories(temp.resolve("s"));
    Files.writeString(temp.resolve("s/survey.json"), "{}");
    Call scale = Call.of("archive", "alike", temp, temp.resolve("s"), "--um-per-px", "1");
    assertEquals(2, scale.code());
    assertTrue(scale.err().contains("the surveys given bring their own scales"), scale.err());
    Call empty = Call.of("archive", "alike", temp, temp);
    assertTrue(empty.err().contains("this folder holds no survey"), empty.err());
  }
}
