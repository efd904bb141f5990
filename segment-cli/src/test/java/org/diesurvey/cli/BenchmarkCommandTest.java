package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That the tables are made; what stands in them is no matter of tests. */
class BenchmarkCommandTest {
  @TempDir Path folder;

  @Test
  void longRun_tellsTheMemoryTenTimes() {
    Call call = Call.of("benchmark", "--long", 10, "--megapixels", 0.3, "--work", folder);
    assertEquals(0, call.code(), call.err());
    List<String> lines = call.out().lines().toList();
    assertTrue(lines.get(0).contains("resident"), call.out());
    assertTrue(lines.get(10).trim().startsWith("10 "), call.out());
  }

  @Test
  void fewSurveys_areRefused() {
    Call call = Call.of("benchmark", "--long", 9, "--work", folder);
    assertEquals(ExitCode.WRONG_CALL, call.code());
    assertTrue(call.err().contains("must be 10 or more, was 9"), call.err());
  }

  @Test
  void longRun_takesTheModelThatIsNamed() {
    Call call =
        Call.of(
            "benchmark",
            "--long",
            10,
            "--megapixels",
            0.3,
            "--model",
            folder.resolve("none.json.gz"),
            "--work",
            folder);
    assertTrue(call.code() != 0 && call.err().contains("none.json.gz"), call.err());
  }
}
