package org.diesurvey.interchange.gds;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** The independent program that tests of GDSII ask; where it is absent they are skipped. */
public final class Gdspy {
  private Gdspy() {}

  /**
   * Lines of a name and a number that a script prints.
   *
   * @param folder for the script and what it prints
   * @param seconds after which the script counts as failed
   */
  public static Map<String, Double> figures(Path folder, int seconds, String script, Path argument)
      throws IOException, InterruptedException {
    Path file = folder.resolve("script.py");
    Files.writeString(file, script);
    Path out = folder.resolve("out.txt");
    for (String python : List.of("/usr/bin/python3", "python3")) {
      if (run(out, seconds, python, "-c", "import gdspy").isEmpty()) {
        continue;
      }
      String printed =
          run(out, seconds, python, "-W", "ignore", file.toString(), argument.toString())
              .orElseThrow(() -> new AssertionError("script failed"));
      Map<String, Double> all = new TreeMap<>();
      for (String line : printed.split("\n")) {
        String[] words = line.strip().split(" ");
        all.put(words[0], Double.parseDouble(words[1]));
      }
      return all;
    }
    Assumptions.abort(
        "skipped: no python3 with gdspy (Debian: apt-get install python3-gdspy), so the independent"
            + " program was not asked");
    throw new IllegalStateException("not reached");
  }

  private static Optional<String> run(Path out, int seconds, String... command)
      throws IOException, InterruptedException {
    Process p;
    try {
      p =
          new ProcessBuilder(command)
              .redirectOutput(out.toFile())
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
    } catch (IOException e) {
      return Optional.empty();
    }
    if (!p.waitFor(seconds, TimeUnit.SECONDS)) {
      p.destroyForcibly();
      return Optional.empty();
    }
    return p.exitValue() == 0
        ? Optional.of(Files.readString(out, StandardCharsets.UTF_8).strip())
        : Optional.empty();
  }
}
