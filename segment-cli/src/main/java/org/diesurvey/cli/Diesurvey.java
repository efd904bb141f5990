package org.diesurvey.cli;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Properties;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.diesurvey.DieInputException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.RunLast;
import picocli.CommandLine.ScopeType;
import picocli.CommandLine.UnmatchedArgumentException;

/** The command diesurvey. */
@Command(
    name = "diesurvey",
    versionProvider = Diesurvey.Version.class,
    synopsisSubcommandLabel = "COMMAND",
    description = {
      "Surveys photographs of bare, delayered dies (diffusion layer, reflected light): finds memory"
          + " arrays, hard macros, standard-cell logic and the pad ring, and says how large each"
          + " is, in mm2 with its standard uncertainty, and how sure that is.",
      ""
    },
    footer = {
      "",
      "Start here:",
      "  diesurvey demo                               draws a die and surveys it",
      "  diesurvey segment die.tif --um-per-px 0.5+-0.002 --out surveys",
      "  diesurvey help segment                       options, scale, output, exit codes",
      "",
      "Environment variables: DIESURVEY_JAVA_OPTS (options for Java, for example -Xmx8g), NO_COLOR"
          + " (no colours), SOURCE_DATE_EPOCH (fixes the date that is written into surveys).",
      "",
      "All areas, counts and classes are estimates from a picture. Taking a chip out of its"
          + " package and delayering it needs fuming acids, among them hydrofluoric acid: leave it"
          + " to licensed practice in an equipped laboratory, under local safety codes."
    })
public final class Diesurvey implements Callable<Integer> {
  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      scope = ScopeType.INHERIT,
      description = "Show this help and leave.")
  private boolean help;

  @Option(
      names = {"-V", "--version"},
      versionHelp = true,
      description = "Show the version and leave.")
  private boolean version;

  @Option(
      names = "--debug",
      scope = ScopeType.INHERIT,
      description = "Show stack traces of faults, and seconds per stage.")
  private boolean debug;

  @Option(
      names = "--time-limit",
      paramLabel = "SECONDS",
      scope = ScopeType.INHERIT,
      description =
          "End the call with exit code 124 after this time; what was finished before is kept. For"
              + " batch: the time for one photograph, 600 by default.")
  private Double timeLimit;

  @Option(
      names = "--progress",
      paramLabel = "text|json",
      scope = ScopeType.INHERIT,
      defaultValue = "text",
      description =
          "How progress is told on standard error: text, or a line of JSON for each step, with"
              + " seconds gone and left. Default: ${DEFAULT-VALUE}.")
  private Progress.Form form;

  private final Terminal terminal;
  private Optional<Progress> shown = Optional.empty();
  private CommandLine line;
  private List<String> words = List.of();

  private Diesurvey(Terminal terminal) {
    this.terminal = terminal;
  }

  /** Runs the command and ends the process with its exit code. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(run(Terminal.ofSystem(), args));
  }

  /**
   * Runs the command.
   *
   * @return one of {@link ExitCode}
   */
  static int run(Terminal terminal, String... args) {
    CommandLine line = commandLine(terminal);
    ((Diesurvey) line.getCommand()).words = List.of(args);
    int code;
    try {
      code = line.execute(args);
    } catch (Error e) {
      // Memory and stack may run out anywhere; one sentence is better than a stack trace.
      ((Diesurvey) line.getCommand()).fault("diesurvey", e);
      code = ExitCode.PROGRAM_FAULT;
    }
    terminal.out().flush();
    terminal.err().flush();
    return code;
  }

  static CommandLine commandLine(Terminal terminal) {
    Diesurvey root = new Diesurvey(terminal);
    CommandLine line = new CommandLine(root);
    root.line = line;
    line.addSubcommand(new SegmentCommand(root));
    line.addSubcommand(new InspectCommand(root));
    line.addSubcommand(new MeasureCommand(root));
    line.addSubcommand(new CalibrateCommand(root));
    line.addSubcommand(new DemoCommand(root));
    line.addSubcommand(new DrawCommand(root));
    line.addSubcommand(new MasksCommand(root));
    line.addSubcommand(new TrainCommand(root));
    line.addSubcommand(new TeachCommand(root));
    line.addSubcommand(new ScoreCommand(root));
    line.addSubcommand(new ExportCommand(root));
    line.addSubcommand(new ScoreMicrometersCommand(root));
    line.addSubcommand(new ScoreComparisonsCommand(root));
    line.addSubcommand(new TrainChangesCommand(root));
    line.addSubcommand(new BenchmarkCommand(root));
    line.addSubcommand(new CheckEstimatesCommand(root));
    line.addSubcommand(new CheckTuningCommand(root));
    line.addSubcommand(new CompareCommand(root));
    line.addSubcommand(new BatchCommand(root));
    line.addSubcommand(new BatchWorkerCommand());
    line.addSubcommand(new ArchiveCommand(root));
    line.getSubcommands().get("archive").addSubcommand(new ArchiveAlikeCommand(root));
    line.addSubcommand(new CompletionCommand(root));
    line.addSubcommand(new HelpCommand(root));
    line.setOut(terminal.out());
    line.setErr(terminal.err());
    line.setColorScheme(Help.defaultColorScheme(terminal.colour() ? Help.Ansi.ON : Help.Ansi.OFF));
    line.setUsageHelpWidth(80);
    line.setUsageHelpLongOptionsMaxWidth(34);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setParameterExceptionHandler((e, args) -> root.wrongCall(e));
    line.setExecutionStrategy(root::execute);
    line.setExecutionExceptionHandler((e, command, result) -> root.failed(e));
    return line;
  }

  /** Runs a command within its time; batch sees to each photograph itself. */
  private int execute(ParseResult parsed) {
    if (timeLimit == null) {
      return new RunLast().execute(parsed);
    }
    if (!TimeLimit.allowed(timeLimit)) {
      return failed(
          new WrongOption(
              "--time-limit", "must be a number of seconds from 0 to 1e7, was " + timeLimit));
    }
    if (parsed.hasSubcommand() && parsed.subcommand().commandSpec().name().equals("batch")) {
      return new RunLast().execute(parsed);
    }
    try (TimeLimit limit = TimeLimit.of(timeLimit, terminal, System::exit)) {
      return new RunLast().execute(parsed);
    }
  }

  /** The time that was stated, s. */
  OptionalDouble timeLimit() {
    return timeLimit == null ? OptionalDouble.empty() : OptionalDouble.of(timeLimit);
  }

  Terminal terminal() {
    return terminal;
  }

  /**
   * Progress of this call.
   *
   * @param items how many photographs or dies there are
   */
  Progress progress(boolean quiet, int items) {
    Progress p = new Progress(terminal, form, quiet, items, System::nanoTime);
    shown = Optional.of(p);
    return p;
  }

  Progress.Form progressForm() {
    return form;
  }

  /** The words of this call, as they were given. */
  List<String> words() {
    return words;
  }

  boolean debug() {
    return debug;
  }

  /** The whole command, for a completion script. */
  CommandLine line() {
    return line;
  }

  /** Called without a command: says which there are. */
  @Override
  public Integer call() {
    terminal.remark("diesurvey: say what to do; these are the commands:");
    terminal.remark("");
    line.getSubcommands()
        .forEach(
            (name, sub) -> {
              var usage = sub.getCommandSpec().usageMessage();
              if (!usage.hidden()) {
                String what = usage.description().length == 0 ? "" : usage.description()[0];
                String head = name;
                for (String text : Wrapping.lines(inShort(what), 56)) {
                  terminal.remark(String.format("  %-20s %s", head, text));
                  head = "";
                }
              }
            });
    terminal.remark("");
    terminal.remark("See: diesurvey help COMMAND");
    return ExitCode.WRONG_CALL;
  }

  /** What comes before the first colon or end of a sentence. */
  private static String inShort(String text) {
    return text.split(":|\\.(?: |$)", 2)[0];
  }

  private int wrongCall(ParameterException e) {
    terminal.remark("diesurvey: " + sentence(e));
    UnmatchedArgumentException.printSuggestions(e, terminal.err());
    terminal.remark("See: " + e.getCommandLine().getCommandSpec().qualifiedName() + " --help");
    return ExitCode.WRONG_CALL;
  }

  /** What is wrong with a call, in the words of this program. */
  private static String sentence(ParameterException e) {
    if (e instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      return "this is missing: "
          + missing.getMissing().stream()
              .map(Diesurvey::named)
              .distinct()
              .collect(Collectors.joining(" and "))
          + ".";
    }
    if (e instanceof UnmatchedArgumentException unmatched && !unmatched.getUnmatched().isEmpty()) {
      return "'" + unmatched.getUnmatched().get(0) + "' is not a command or option here.";
    }
    return plain(e.getMessage());
  }

  private static String named(ArgSpec a) {
    String name = a.isOption() ? ((OptionSpec) a).longestName() + " " : "";
    int least = a.arity().min();
    return name + a.paramLabel() + (least > 1 ? " (at least " + least + ")" : "");
  }

  /** Names of types of the program mean nothing to its users. */
  private static String plain(String message) {
    return message
        .replaceAll("is not an? (?:int|long)\\b", "is not a whole number")
        .replaceAll("is not a double\\b", "is not a number");
  }

  private int failed(Exception e) {
    shown.ifPresent(Progress::stop);
    if (e instanceof DieInputException || e instanceof WrongOption) {
      terminal.remark("diesurvey: " + e.getMessage());
      trace(e);
      return ExitCode.WRONG_CALL;
    }
    fault("diesurvey", e);
    return ExitCode.PROGRAM_FAULT;
  }

  /** Says that this program failed, in one sentence. */
  void fault(String place, Throwable e) {
    shown.ifPresent(Progress::stop);
    String remedy = debug ? "" : "; run it again with --debug and report what it shows";
    terminal.remark(
        e instanceof OutOfMemoryError
            ? place
                + ": the memory allowed to Java ran out; allow more, for example with"
                + " DIESURVEY_JAVA_OPTS=-Xmx8g"
            : place
                + ": this program failed ("
                + e.getClass().getSimpleName()
                + ")"
                + remedy
                + ".");
    trace(e);
  }

  /** Shows where a failure came from, with the debug switch only. */
  void trace(Throwable e) {
    if (debug) {
      e.printStackTrace(terminal.err());
      terminal.err().flush();
    }
  }

  /** The version that the build wrote into the library. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() throws IOException {
      Properties p = new Properties();
      try (InputStream in =
          Version.class.getResourceAsStream("/org/diesurvey/version.properties")) {
        if (in != null) {
          p.load(in);
        }
      }
      return new String[] {"diesurvey " + p.getProperty("version", "unknown")};
    }
  }
}
