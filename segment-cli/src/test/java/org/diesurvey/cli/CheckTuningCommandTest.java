package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.diesurvey.TunedValue;
import org.diesurvey.pipeline.Tuning;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two small dies under a small model; which values matter on them is no matter of tests. */
class CheckTuningCommandTest {
  @TempDir private Path folder;

  private Call check(Path json, int threads) {
    return Call.of(
        "check-tuning",
        "--dies",
        2,
        "--megapixels",
        0.25,
        "--model",
        SmallModel.model(),
        "--threads",
        threads,
        "--json",
        json,
        "--quiet");
  }

  @Test
  void everyValueHasALine_theSameForAnyNumberOfThreads() throws IOException {
    Path one = folder.resolve("one.json");
    Path two = folder.resolve("two.json");
    Call call = check(one, 1);
    assertEquals(ExitCode.DONE, call.code(), call.err());
    assertEquals(call, check(two, 2));
    assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(two));
    List<String> lines = call.out().stripTrailing().lines().toList();
    JsonNode written = JsonMapper.builder().build().readTree(one.toFile());
    assertEquals(2, written.get("dies").size());
    List<TunedValue<Tuning>> values = Tuning.DEFAULT.values();
    assertEquals(1 + values.size(), lines.size(), call.out());
    int changed = 0;
    for (int i = 0; i < values.size(); i++) {
      JsonNode line = written.get("values").get(i);
      assertEquals(values.get(i).name(), line.get("name").asText());
      assertEquals(values.get(i).value(), line.get("value").asDouble());
      assertTrue(lines.get(1 + i).startsWith(values.get(i).name() + " "), lines.get(1 + i));
      assertTrue(lines.get(1 + i).endsWith("  " + values.get(i).chosenOn()), lines.get(1 + i));
      boolean some = line.get("diesChanged").asInt() > 0;
      changed += some ? 1 : 0;
      if (!some) {
        assertEquals(0, line.get("largestShareChangePoints").asDouble());
        assertEquals(line.get("meanIouNow"), line.get("meanIouLess"));
        assertEquals(line.get("meanIouNow"), line.get("meanIouMore"));
      }
    }
    assertTrue(changed >= 3, changed + " values changed anything");
  }

  @Test
  void noDies_areRefused() {
    Call call = Call.of("check-tuning", "--dies", 0);
    assertEquals(ExitCode.WRONG_CALL, call.code());
    assertTrue(call.err().contains("must be from 1 to 1000, was 0"), call.err());
  }
}
