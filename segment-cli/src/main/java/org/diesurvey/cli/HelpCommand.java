package org.diesurvey.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** Shows the help of a command. */
@Command(name = "help", description = "Shows the help of a command, or of all together.")
final class HelpCommand implements Callable<Integer> {
  @Parameters(paramLabel = "COMMAND", arity = "0..1", description = "The command to explain.")
  private String command;

  private final Diesurvey root;

  HelpCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    CommandLine line = command == null ? root.line() : root.line().getSubcommands().get(command);
    if (line == null) {
      throw new WrongOption("help", "knows no command '" + command + "'; see: diesurvey --help");
    }
    line.usage(root.terminal().out(), root.line().getColorScheme());
    return ExitCode.DONE;
  }
}
