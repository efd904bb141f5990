package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Tells the outcomes as they come and sums them up in an exit code. */
final class OutcomePrinter {
  private final Diesurvey root;
  private final boolean quiet;
  private final boolean json;
  private int rejected;
  private int failed;

  /**
   * @param quiet no tables
   * @param json one line of JSON for each photograph instead of tables
   */
  OutcomePrinter(Diesurvey root, boolean quiet, boolean json) {
    this.root = root;
    this.quiet = quiet;
    this.json = json;
  }

  void tell(PhotoOutcome outcome) {
    Terminal terminal = root.terminal();
    if (outcome instanceof PhotoOutcome.Rejected r) {
      rejected++;
      terminal.remark("diesurvey: " + r.sentence());
      root.trace(r.reason());
    } else if (outcome instanceof PhotoOutcome.Failed f) {
      failed++;
      root.fault(f.photo().toString(), f.fault());
    }
    if (json) {
      terminal.result(OutcomeLine.of(outcome));
    } else if (outcome instanceof PhotoOutcome.Surveyed s && !quiet) {
      new SurveyTable(terminal).print(s.photo(), s.survey(), s.folder());
    }
    if (root.debug() && outcome instanceof PhotoOutcome.Surveyed s) {
      terminal.remark(seconds(s));
    }
  }

  private static String seconds(PhotoOutcome.Surveyed s) {
    List<String> parts = new ArrayList<>();
    s.seconds().forEach((stage, v) -> parts.add(String.format(Locale.ROOT, "%s %.2f", stage, v)));
    return "seconds: " + String.join(", ", parts);
  }

  /** One of {@link ExitCode}. */
  int exitCode() {
    if (failed > 0) {
      return ExitCode.PROGRAM_FAULT;
    }
    return rejected > 0 ? ExitCode.SOME_REJECTED : ExitCode.DONE;
  }

  int photosLost() {
    return rejected + failed;
  }
}
