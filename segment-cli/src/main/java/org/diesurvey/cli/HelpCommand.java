package org.diesurvey.cli;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** Shows the help of a command. */
@Command(name = "help", description = "Shows the help of a command, or of all together.")
final class HelpCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "COMMAND",
      arity = "0..*",
      description = "The command to explain, for example archive check.")
  private List<String> commands = List.of();

  private final Diesurvey root;

  HelpCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    CommandLine line = root.line();
    for (String command : commands) {
      CommandLine next = line.getSubcommands().get(command);
      if (next == null) {
        throw new WrongOption(
            "help",
            "knows no command '"
                + String.join(" ", commands)
                + "'; see: "
                + line.getCommandSpec().qualifiedName()
                + " --help");
      }
      line = next;
    }
    line.usage(root.terminal().out(), root.line().getColorScheme());
    return ExitCode.DONE;
  }
}
