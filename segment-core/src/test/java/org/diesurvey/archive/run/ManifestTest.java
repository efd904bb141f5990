package org.diesurvey.archive.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.pipeline.ScaleInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ManifestTest {
  @TempDir private Path folder;

  private List<BatchPhoto> read(String text) throws IOException {
    Path file = Files.writeString(folder.resolve("lot.csv"), text);
    return Manifest.read(file, ScaleInput.NONE, DensityTable.shipped());
  }

  @Test
  void everyColumn_isRead() throws IOException {
    List<BatchPhoto> photos =
        read(
            "\ufeffnotes,photo,um_per_px,u_um_per_px,scale_origin,node_nm,plane,die_name,revision,"
                + "layer\r\n\"a, \"\"b\"\"\",sub/die.png,0.5,0.002,micrometer 20x,130,3,demo,B,"
                + "diffusion\r\n\r\n,other.png,,,,,,,,\r\n");
    BatchPhoto one = photos.get(0);
    assertEquals(folder.resolve("sub/die.png").toAbsolutePath(), one.file());
    ScaleInput.Known scale = (ScaleInput.Known) one.scale();
    assertEquals(0.002, scale.calibration().umPerPx().standardUncertainty());
    assertEquals("micrometer 20x", scale.calibration().note());
    assertEquals(OptionalInt.of(3), one.plane());
    assertEquals(OptionalInt.empty(), photos.get(1).plane());
    assertEquals(130, one.nodeNm().getAsDouble());
    assertEquals(Optional.of("a, \"b\""), one.labels().notes());
    assertEquals(ScaleInput.NONE, photos.get(1).scale());
    assertEquals(PhotoLabels.NONE, photos.get(1).labels());
  }

  @Test
  void everyBadLine_isNamedWithItsNumber() throws IOException {
    String said =
        assertThrows(
                DieInputException.class,
                () ->
                    read(
                        "photo,um_per_px,u_um_per_px,node_nm\n"
                            + "a.png,0.5,,\n"
                            + "b.png,half,,\n"
                            + "c.png,-1,,\n"
                            + "d.png,,0.1,\n"
                            + "a.png,,,\n"
                            + ",0.5,,\n"
                            + "e.png,0.5\n"
                            + "f.png,,,1\n"))
            .getMessage();
    for (int line = 3; line <= 9; line++) {
      assertTrue(said.contains("line " + line + ":"), line + " in " + said);
    }
    assertTrue(!said.contains("line 2:"), said);
  }

  @Test
  void planesAndOriginsThatSayNothing_areRefused() {
    for (String row : List.of("a.png,0.5,,0", "a.png,0.5,,1.5", "a.png,,micrometer,")) {
      assertTrue(
          assertThrows(
                  DieInputException.class,
                  () -> read("photo,um_per_px,scale_origin,plane\n" + row + "\n"))
              .getMessage()
              .contains("line 2:"),
          row);
    }
  }

  @Test
  void unknownColumn_isNamed() {
    String said =
        assertThrows(DieInputException.class, () -> read("photo,scale\na.png,1\n")).getMessage();
    assertTrue(said.contains("unknown column 'scale'"), said);
  }
}
