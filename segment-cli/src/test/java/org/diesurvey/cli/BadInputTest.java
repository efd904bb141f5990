package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class BadInputTest {
  @TempDir Path temp;

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "missing",
        "directory",
        "empty",
        "text",
        "cut-png",
        "cut-jpeg",
        "cut-tiff",
        "one-pixel",
        "black",
        "white",
        "webp",
        "cmyk"
      })
  void badPhotograph_isOneSentenceThatNamesIt_andLeavesNothing(String kind) throws IOException {
    Path photo = BadPhotos.make(kind, temp);
    Path out = temp.resolve("surveys");
    Call call =
        Call.of(
            "segment",
            photo,
            "--um-per-px",
            "0.5",
            "--out",
            out,
            "--quiet",
            "--model",
            SmallModel.model());
    assertEquals(1, call.code(), call.err());
    assertEquals("", call.out());
    assertEquals(1, call.errLines().length, call.err());
    assertTrue(call.err().contains(photo.getFileName().toString()), call.err());
    assertFalse(call.err().contains("Exception"), call.err());
    assertFalse(Files.exists(out), "an output folder without a survey was left behind");
  }

  static Stream<Arguments> wrongCalls() {
    return Stream.of(
        Arguments.of("NaN", List.of("--um-per-px", "NaN")),
        Arguments.of("negative", List.of("--um-per-px", "-0.5")),
        Arguments.of("absurd", List.of("--um-per-px", "5000")),
        Arguments.of("comma", List.of("--um-per-px", "0,5")),
        Arguments.of("two scales", List.of("--um-per-px", "0.5", "--die-size", "2.1x1.7")),
        Arguments.of("scale and none", List.of("--um-per-px", "0.5", "--no-scale")),
        Arguments.of("scale file missing", List.of("--scale", "nowhere.json")),
        Arguments.of("die size", List.of("--die-size", "2.1")),
        Arguments.of("node", List.of("--node", "1")),
        Arguments.of("node NaN", List.of("--node", "NaN")),
        Arguments.of("node text", List.of("--node", "old")),
        Arguments.of("threads", List.of("--threads", "0")),
        Arguments.of("model missing", List.of("--model", "nowhere.gz")),
        Arguments.of("unknown option", List.of("--colour", "red")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("wrongCalls")
  void wrongCall_isRefusedBeforeAnyWork(String name, List<String> options) {
    Path out = temp.resolve("surveys");
    Object[] args =
        Stream.concat(Stream.of("segment", "x.png", "--out", out), options.stream()).toArray();
    Call call = Call.of(args);
    assertEquals(2, call.code(), call.err());
    assertEquals("", call.out());
    assertTrue(call.err().startsWith("diesurvey: "), call.err());
    assertFalse(call.err().contains("\tat "), call.err());
    assertFalse(Files.exists(out));
  }

  @Test
  void outputThatCannotBeWritten_isFoundBeforeWork() throws IOException {
    Path file = Files.writeString(temp.resolve("file"), "text");
    Call call =
        Call.of(
            "segment",
            SmallModel.photo(),
            "--out",
            file.resolve("below"),
            "--model",
            SmallModel.model());
    assertEquals(2, call.code());
    assertEquals(1, call.errLines().length, call.err());
    assertTrue(call.err().contains("--out"), call.err());
    assertEquals("text", Files.readString(file));
  }

  @Test
  void damagedModel_isRefused() throws IOException {
    Path model = Files.writeString(temp.resolve("m.gz"), "no model");
    Call call = Call.of("segment", "x.png", "--out", temp.resolve("o"), "--model", model);
    assertEquals(2, call.code());
    assertTrue(call.err().contains("m.gz"), call.err());
  }

  @Test
  void noCommand_saysSo() {
    assertEquals(2, Call.of().code());
    Call typo = Call.of("segmnt");
    assertEquals(2, typo.code());
    assertTrue(typo.err().contains("segment"), typo.err());
  }

  @Test
  void stackTrace_isShownWithTheDebugSwitchOnly() {
    Path photo = temp.resolve("nowhere.png");
    Path out = temp.resolve("o");
    String plain = Call.of("segment", photo, "--out", out, "--model", SmallModel.model()).err();
    String debug =
        Call.of("segment", photo, "--out", out, "--debug", "--model", SmallModel.model()).err();
    assertFalse(plain.contains("\tat "), plain);
    assertTrue(debug.contains("\tat "), debug);
  }
}
