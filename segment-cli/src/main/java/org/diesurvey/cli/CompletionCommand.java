package org.diesurvey.cli;

import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;

/** Writes a completion script for the shell. */
@Command(
    name = "completion",
    description = {
      "Writes a script to standard output that completes commands and options in bash and zsh.",
      ""
    },
    footer = {"", "Example, for this shell only:", "  source <(diesurvey completion)"})
final class CompletionCommand implements Callable<Integer> {
  private final Diesurvey root;

  CompletionCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    root.terminal().out().print(AutoComplete.bash("diesurvey", root.line()));
    root.terminal().out().flush();
    return ExitCode.DONE;
  }
}
