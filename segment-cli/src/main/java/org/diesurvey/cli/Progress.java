package org.diesurvey.cli;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Timer;
import java.util.TimerTask;
import java.util.function.LongSupplier;

/**
 * How far a run is, how long it has taken and about how long it will take: one line that is redrawn
 * where a person watches, plain lines else, or lines of JSON for a script; nothing when quiet.
 */
final class Progress {
  /** What it looks like. */
  enum Form {
    TEXT,
    JSON
  }

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

  private static final int[] WEIGHTS = {3, 1, 7, 1, 37, 12, 16, 3, 20};
  private static final int BAR = 20;
  private static final int LINE = 78;
  private static final int REDRAWN_EVERY_MS = 500;

  /** Least share and time from which the rest can be told, s. */
  private static final double LEAST_SHARE = 0.03;

  private static final double LEAST_S = 0.5;

  private final Terminal terminal;
  private final Form form;
  private final boolean quiet;
  private final int items;
  private final LongSupplier nanoTime;
  private final long start;
  private int item;
  private String name = "";
  private String stage = "";
  private double share;
  private OptionalDouble wholeSeconds = OptionalDouble.empty();
  private Timer timer;

  /**
   * @param items how many photographs or dies there are
   * @param nanoTime the clock
   */
  Progress(Terminal terminal, Form form, boolean quiet, int items, LongSupplier nanoTime) {
    this.terminal = terminal;
    this.form = form;
    this.quiet = quiet;
    this.items = items;
    this.nanoTime = nanoTime;
    start = nanoTime.getAsLong();
  }

  /** For work beside that of which progress is shown. */
  Progress silent() {
    return new Progress(terminal, form, true, items, nanoTime);
  }

  /** The next photograph begins. */
  synchronized void begin(String what) {
    name = what;
    reached(0, "open");
  }

  /** A stage of the photograph is done. */
  synchronized void stageDone(String done) {
    int at = STAGES.indexOf(done);
    int sum = 0;
    for (int i = 0; i <= at; i++) {
      sum += WEIGHTS[i];
    }
    reached(sum / 100.0, at + 1 < STAGES.size() ? STAGES.get(at + 1) : "");
  }

  /** The photograph is done, well or badly; the line makes room for results. */
  synchronized void end(String outcome) {
    item++;
    share = 0;
    stop();
    if (quiet) {
      return;
    }
    if (form == Form.JSON) {
      terminal.remark(json("end").put("outcome", outcome).toString());
    } else if (!terminal.errIsTerminal()) {
      terminal.remark(item + " of " + items + "  " + name + ": " + outcome);
    }
  }

  /** No more lines, until another photograph begins. */
  synchronized void stop() {
    if (timer != null) {
      timer.cancel();
      timer = null;
      terminal.clearLine(LINE);
    }
  }

  private void reached(double shareDone, String next) {
    share = shareDone;
    stage = next;
    double whole = (item + share) / items;
    double seconds = seconds();
    if (whole >= LEAST_SHARE && seconds >= LEAST_S) {
      wholeSeconds = OptionalDouble.of(seconds / whole);
    }
    if (quiet) {
      return;
    }
    if (form == Form.JSON) {
      terminal.remark(json("stage").put("stage", stage).toString());
    } else if (terminal.errIsTerminal()) {
      draw();
      if (timer == null) {
        timer = new Timer("progress", true);
        timer.schedule(tick(), REDRAWN_EVERY_MS, REDRAWN_EVERY_MS);
      }
    }
  }

  private TimerTask tick() {
    return new TimerTask() {
      @Override
      public void run() {
        synchronized (Progress.this) {
          if (timer != null) {
            draw();
          }
        }
      }
    };
  }

  private double seconds() {
    return (nanoTime.getAsLong() - start) / 1e9;
  }

  private OptionalDouble secondsLeft() {
    return wholeSeconds.isEmpty() || wholeSeconds.getAsDouble() <= seconds()
        ? OptionalDouble.empty()
        : OptionalDouble.of(wholeSeconds.getAsDouble() - seconds());
  }

  /** One line of JSON: which photograph, how far, seconds gone and left. */
  private ObjectNode json(String event) {
    ObjectNode line = JsonNodeFactory.instance.objectNode();
    line.put("event", event)
        .put("item", event.equals("end") ? item : item + 1)
        .put("of", items)
        .put("name", name)
        .put("share", Math.round(1000 * (item + share) / items) / 1000.0);
    return timed(line, seconds(), secondsLeft());
  }

  /** Adds seconds gone and left, in tenths. */
  static ObjectNode timed(ObjectNode line, double seconds, OptionalDouble left) {
    line.put("elapsed_s", Math.round(10 * seconds) / 10.0);
    left.ifPresent(s -> line.put("remaining_s", Math.round(10 * s) / 10.0));
    return line;
  }

  private void draw() {
    int filled = (int) Math.round(BAR * Math.min(1, (item + share) / items));
    StringBuilder line = new StringBuilder("[");
    line.append("=".repeat(filled)).append(" ".repeat(BAR - filled)).append("] ");
    line.append(item + 1).append(" of ").append(items);
    line.append(", ").append(span(seconds()));
    secondsLeft().ifPresent(s -> line.append(", about ").append(span(s)).append(" left"));
    terminal.redraw(line.append("  ").append(name).append("  ").append(stage).toString(), LINE);
  }

  /** "40 s", "12 min", "3.5 h". */
  static String span(double seconds) {
    if (seconds < 90) {
      return String.format(Locale.ROOT, "%.0f s", seconds);
    }
    return seconds < 5400
        ? String.format(Locale.ROOT, "%.0f min", seconds / 60)
        : String.format(Locale.ROOT, "%.1f h", seconds / 3600);
  }
}
