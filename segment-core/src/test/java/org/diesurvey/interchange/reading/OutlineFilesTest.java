package org.diesurvey.interchange.reading;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.geojson.GeoJsonWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class OutlineFilesTest {
  @TempDir Path folder;

  private static Reason reason(Path file) {
    return assertThrows(DieInputException.class, () -> OutlineFiles.read(file)).reason();
  }

  /** A byte order mark and white space, as editors leave them, may stand in front. */
  @ParameterizedTest
  @ValueSource(strings = {"", "\ufeff", "\ufeff \t", "\n\r\n"})
  void whatStandsInFront_isPassedOver(String front) throws IOException {
    OutlineSet set = TestOutlines.rich(OutlineFrame.DIE_UM);
    String text = GeoJsonWriter.text(set);
    Path file = Files.writeString(folder.resolve("o.geojson"), front + text);
    assertEquals(set.outlines().size(), OutlineFiles.read(file).outlines().size());
    assertArrayEquals(Files.readAllBytes(file), OutlineFiles.bytes(file));
  }

  @Test
  void filesThatHoldNoOutlines_areRefusedWithTheReason() throws IOException {
    assertEquals(Reason.FILE_MISSING, reason(folder.resolve("none")));
    assertEquals(Reason.FILE_MISSING, reason(folder));
    assertEquals(Reason.FILE_EMPTY, reason(Files.createFile(folder.resolve("empty"))));
    for (String text : new String[] {"x{}", "   ", "\u0000\u0006\u0000", "\u000e{}", "\u0008{}"}) {
      Path file = Files.writeString(folder.resolve("o"), text);
      assertEquals(Reason.FORMAT_UNKNOWN, reason(file), text);
    }
    byte[] almostGds = {0, 6, 0, 3};
    assertEquals(Reason.FORMAT_UNKNOWN, reason(Files.write(folder.resolve("g"), almostGds)));
    byte[] header = {0, 6, 0, 2};
    assertEquals(Reason.DOCUMENT_INVALID, reason(Files.write(folder.resolve("g"), header)));
  }

  @Test
  void fileOfMoreThan32Mebibytes_isNotRead() throws IOException {
    Path file = folder.resolve("large");
    try (RandomAccessFile f = new RandomAccessFile(file.toFile(), "rw")) {
      f.setLength(OutlineFiles.MOST_BYTES + 1);
    }
    assertEquals(Reason.DOCUMENT_INVALID, reason(file));
    try (RandomAccessFile f = new RandomAccessFile(file.toFile(), "rw")) {
      f.setLength(OutlineFiles.MOST_BYTES);
    }
    assertEquals(Reason.FORMAT_UNKNOWN, reason(file));
  }

  @Test
  void brokenJson_isToldWithItsLine() {
    byte[] b = "{\n\n\"a\": tru\n}".getBytes(StandardCharsets.UTF_8);
    String said =
        assertThrows(DieInputException.class, () -> OutlineFiles.parse(b, "o.json")).getMessage();
    assertTrue(said.contains("no valid JSON (line 3)"), said);
  }
}
