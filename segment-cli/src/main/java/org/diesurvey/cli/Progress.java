package org.diesurvey.cli;

import java.util.List;

/**
 * How far a run is: one line that is redrawn where a person watches, plain lines else, nothing when
 * quiet.
 */
final class Progress {
  /** Stages of one photograph with their rough share of its time, percent; measured at 12 MP. */
  private static final List<String> STAGES =
      List.of(
          "open",
          "read",
          "locate",
          "scale",
          "features",
          "classification",
          "regions",
          "measures",
          "write");

  private static final int[] WEIGHTS = {4, 1, 12, 1, 52, 4, 6, 2, 18};
  private static final int BAR = 24;
  private static final int LINE = 78;

  private final Terminal terminal;
  private final boolean quiet;
  private final int items;
  private int item;
  private String name = "";

  /**
   * @param items how many photographs or dies there are
   */
  Progress(Terminal terminal, boolean quiet, int items) {
    this.terminal = terminal;
    this.quiet = quiet;
    this.items = items;
  }

  /** For work beside that of which progress is shown. */
  Progress silent() {
    return new Progress(terminal, true, items);
  }

  /** The next photograph begins. */
  void begin(String what) {
    name = what;
    draw(0, "open");
  }

  /** A stage of the photograph is done. */
  void stageDone(String stage) {
    int at = STAGES.indexOf(stage);
    int done = 0;
    for (int i = 0; i <= at; i++) {
      done += WEIGHTS[i];
    }
    draw(done / 100.0, at + 1 < STAGES.size() ? STAGES.get(at + 1) : "");
  }

  /** The photograph is done, well or badly; the line makes room for results. */
  void end(String outcome) {
    item++;
    if (quiet) {
      return;
    }
    if (terminal.errIsTerminal()) {
      terminal.clearLine(LINE);
    } else {
      terminal.remark(item + " of " + items + "  " + name + ": " + outcome);
    }
  }

  private void draw(double share, String stage) {
    if (quiet || !terminal.errIsTerminal()) {
      return;
    }
    int filled = (int) Math.round(BAR * Math.min(1, (item + share) / items));
    String line =
        "["
            + "=".repeat(filled)
            + " ".repeat(BAR - filled)
            + "] "
            + (item + 1)
            + " of "
            + items
            + "  "
            + name
            + "  "
            + stage;
    terminal.redraw(line, LINE);
  }
}
