package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.RandomAccessFile;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.diesurvey.archive.run.PhotoSearch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Files from strangers, and calls that run out of something: one sentence and an exit code. */
class HostileInputTest {
  @TempDir Path temp;

  @Test
  void errorOfTheVirtualMachine_isOneSentence_andCode70() {
    StringWriter err = new StringWriter();
    Terminal terminal =
        new Terminal(
            new PrintWriter(new StringWriter()),
            new PrintWriter(err),
            false,
            false,
            false,
            variable -> {
              throw new OutOfMemoryError("test");
            });
    int code = Diesurvey.run(terminal, "batch", "trays", "--archive", temp.toString());
    assertEquals(ExitCode.PROGRAM_FAULT, code);
    assertEquals(1, err.toString().strip().split("\n").length, err.toString());
    assertTrue(err.toString().contains("DIESURVEY_JAVA_OPTS=-Xmx"), err.toString());
  }

  static Stream<Arguments> documents() {
    return Stream.of(
        Arguments.of("--scale", List.of("segment", "PHOTO", "--scale", "FILE", "--out", "OUT")),
        Arguments.of(
            "--model",
            List.of("segment", "PHOTO", "--no-scale", "--model", "FILE", "--out", "OUT")),
        Arguments.of(
            "--densities",
            List.of("segment", "PHOTO", "--no-scale", "--densities", "FILE", "--out", "OUT")),
        Arguments.of("manifest", List.of("batch", "FILE", "--archive", "OUT")),
        Arguments.of("outlines", List.of("measure", "PHOTO", "--outlines", "FILE", "--out", "OUT")),
        Arguments.of("survey", List.of("export", "FILE", "--as", "geojson", "--out", "OUT")));
  }

  /** Ten gigabytes, none of which stand on the disk. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("documents")
  void hugeDocument_isRefusedByItsSize(String kind, List<String> words) throws IOException {
    Path file = temp.resolve(kind.equals("manifest") ? "huge.csv" : "survey.json");
    try (RandomAccessFile f = new RandomAccessFile(file.toFile(), "rw")) {
      f.setLength(10_000_000_000L);
    }
    Path photo = BadPhotos.make("black", temp);
    Object[] call =
        words.stream()
            .map(
                w ->
                    switch (w) {
                      case "FILE" -> file;
                      case "PHOTO" -> photo;
                      case "OUT" -> temp.resolve("out");
                      default -> w;
                    })
            .toArray();
    Call said = Call.of(call);
    assertEquals(ExitCode.WRONG_CALL, said.code(), said.err());
    assertTrue(said.err().contains("10000000000 bytes"), said.err());
    assertFalse(Files.exists(temp.resolve("out")));
  }

  @Test
  void modelThatUnpacksToFarMore_isRefused() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(
          "{\"format\":\"diesurvey-tile-model\",\"first\":[".getBytes(StandardCharsets.UTF_8));
      byte[] zeros = "0,".repeat(1 << 16).getBytes(StandardCharsets.UTF_8);
      for (int i = 0; i < 480; i++) {
        out.write(zeros);
      }
      out.write("0]}".getBytes(StandardCharsets.UTF_8));
    }
    Path file = Files.write(temp.resolve("bomb.json.gz"), bytes.toByteArray());
    Path photo = BadPhotos.make("black", temp);
    Call said =
        Call.of("segment", photo, "--no-scale", "--model", file, "--out", temp.resolve("out"));
    assertEquals(ExitCode.WRONG_CALL, said.code(), said.err());
    assertTrue(said.err().contains("unpacks to more than"), said.err());
  }

  @Test
  void timeLimit_endsWithItsCode_unlessTheCallIsDone() throws InterruptedException {
    StringWriter err = new StringWriter();
    PrintWriter nowhere = new PrintWriter(new StringWriter());
    Terminal terminal =
        new Terminal(nowhere, new PrintWriter(err), false, false, false, variable -> null);
    AtomicInteger code = new AtomicInteger();
    try (TimeLimit limit = TimeLimit.of(60, terminal, code::set)) {
      assertEquals(0, code.get());
    }
    assertEquals(0, code.get());
    try (TimeLimit limit = TimeLimit.of(0.02, terminal, code::set)) {
      for (int i = 0; i < 500 && code.get() == 0; i++) {
        Thread.sleep(20);
      }
    }
    assertEquals(ExitCode.OUT_OF_TIME, code.get());
    assertTrue(err.toString().contains("0.02 s of --time-limit"), err.toString());
  }

  @Test
  void callBeyondItsTimeLimit_ends() throws IOException, InterruptedException {
    Path log = temp.resolve("log");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Diesurvey.class.getName(),
                "draw",
                "--seed",
                "1",
                "--megapixels",
                "200",
                "--um-per-px",
                "0.1",
                "--time-limit",
                "1",
                "--out",
                temp.resolve("drawn").toString())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "still running");
    assertEquals(ExitCode.OUT_OF_TIME, process.exitValue(), Files.readString(log));
    assertTrue(Files.readString(log).contains("--time-limit"), Files.readString(log));
  }

  @ParameterizedTest
  @MethodSource("noTimes")
  void timeLimitThatIsNone_isRefused(String seconds) {
    Call said = Call.of("demo", "--time-limit", seconds, "--out", temp.resolve("out"));
    assertEquals(ExitCode.WRONG_CALL, said.code(), said.err());
    assertTrue(said.err().contains("--time-limit"), said.err());
  }

  static Stream<String> noTimes() {
    return Stream.of("0", "-1", "NaN", "1e9", "soon");
  }

  @Test
  void linkToAFolder_isSearchedLikeTheFolder() throws IOException {
    Path folder = Files.createDirectories(temp.resolve("trays/lot7"));
    Files.write(folder.resolve("die.png"), new byte[] {1});
    Path link = Files.createSymbolicLink(temp.resolve("link"), temp.resolve("trays"));
    assertEquals(
        List.of(link.resolve("lot7/die.png")), PhotoSearch.below(link, List.of()).photos());
  }
}
