package org.diesurvey.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;

/** This program in a process of its own, watched from outside. */
final class FreshProcess {
  private static final int LOOK_EVERY_MS = 10;

  private FreshProcess() {}

  /**
   * What a run took.
   *
   * @param output standard output
   * @param wallSeconds from start to end of the process
   * @param peakResidentKib highest resident set, as Linux counts it (VmHWM); empty elsewhere
   */
  record Result(String output, double wallSeconds, OptionalLong peakResidentKib) {}

  /** How this program is called: the launcher if that was used, else Java itself. */
  static List<String> thisProgram() {
    String launcher = System.getProperty("diesurvey.launcher");
    return launcher != null
        ? List.of(launcher)
        : List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            Diesurvey.class.getName());
  }

  /**
   * Runs a command to its end.
   *
   * @param code exit code that it must end with
   * @throws IllegalStateException if it ends otherwise
   */
  static Result run(List<String> command, int code) throws IOException, InterruptedException {
    Path output = Files.createTempFile("diesurvey-", ".out");
    try {
      long start = System.nanoTime();
      Process process =
          new ProcessBuilder(command)
              .redirectOutput(output.toFile())
              .redirectError(ProcessBuilder.Redirect.INHERIT)
              .start();
      OptionalLong peak = OptionalLong.empty();
      do {
        OptionalLong now = peakResidentKib(process.pid());
        peak = now.isPresent() ? now : peak;
      } while (!process.waitFor(LOOK_EVERY_MS, TimeUnit.MILLISECONDS));
      double seconds = (System.nanoTime() - start) / 1e9;
      if (process.exitValue() != code) {
        throw new IllegalStateException(
            String.join(" ", command) + " ended with " + process.exitValue());
      }
      return new Result(Files.readString(output, StandardCharsets.UTF_8), seconds, peak);
    } finally {
      Files.deleteIfExists(output);
    }
  }

  /** Memory in MiB for a table. */
  static String mib(OptionalLong kib) {
    return kib.isPresent() ? Figures.fixed(kib.getAsLong() / 1024.0, 0) : "not known here";
  }

  /** VmHWM of proc(5): "Peak resident set size". */
  private static OptionalLong peakResidentKib(long pid) {
    return statusKib(Long.toString(pid), "VmHWM:");
  }

  /**
   * A figure of this process, as Linux counts it.
   *
   * @param name as in proc(5), with its colon
   */
  static OptionalLong statusKib(String name) {
    return statusKib("self", name);
  }

  private static OptionalLong statusKib(String process, String name) {
    try {
      for (String line : Files.readAllLines(Path.of("/proc", process, "status"))) {
        if (line.startsWith(name)) {
          return OptionalLong.of(Long.parseLong(line.replaceAll("[^0-9]", "")));
        }
      }
    } catch (IOException e) {
      // Not Linux, or the process has just ended.
    }
    return OptionalLong.empty();
  }
}
