package org.diesurvey.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;

/** Measures whole runs. */
@Command(name = "benchmark", hidden = true)
final class BenchmarkCommand implements Callable<Integer> {
  BenchmarkCommand(Diesurvey root) {}

  @Override
  public Integer call() {
    return ExitCode.DONE;
  }
}
