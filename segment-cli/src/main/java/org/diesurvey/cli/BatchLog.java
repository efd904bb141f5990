package org.diesurvey.cli;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchOutcome;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;

/**
 * Tells how a batch goes: one line that is redrawn where a person watches, else a line every ten
 * seconds; photographs that were lost are told at once.
 */
final class BatchLog implements BatchListener {
  private static final int LINE = 78;
  private static final double LINE_EVERY_S = 10;

  private final Diesurvey root;
  private final Terminal terminal;
  private final boolean quiet;
  private double told;
  private boolean inTheWay;

  BatchLog(Diesurvey root, boolean quiet) {
    this.root = root;
    terminal = root.terminal();
    this.quiet = quiet;
  }

  @Override
  public void lost(BatchPhoto photo, RuntimeException why) {
    clear();
    root.trace(why);
  }

  @Override
  public void said(String sentence) {
    clear();
    terminal.remark(sentence);
  }

  /** Whether a survey could not be put to its place because of something that is not ours. */
  boolean somethingInTheWay() {
    return inTheWay;
  }

  @Override
  public void done(BatchOutcome outcome, BatchProgress progress) {
    inTheWay |= outcome.reason().filter(Reason.OUTPUT_NOT_WRITABLE.name()::equals).isPresent();
    if (!outcome.hasSurvey()) {
      clear();
      terminal.remark("diesurvey: " + sentence(outcome));
    }
    if (quiet) {
      return;
    }
    if (root.progressForm() == Progress.Form.JSON) {
      terminal.remark(json(outcome, progress));
    } else if (terminal.errIsTerminal()) {
      String line = line(progress);
      terminal.redraw(line, LINE);
    } else if (progress.seconds() - told >= LINE_EVERY_S) {
      told = progress.seconds();
      terminal.remark(line(progress));
    }
  }

  private static String sentence(BatchOutcome outcome) {
    String file = outcome.photo().place();
    String said = outcome.sentence().orElse("");
    return said.contains(String.valueOf(outcome.photo().file().getFileName()))
        ? said
        : file + ": " + said;
  }

  private static String json(BatchOutcome outcome, BatchProgress p) {
    ObjectNode line = JsonNodeFactory.instance.objectNode();
    line.put("event", "end")
        .put("item", p.done())
        .put("of", p.photos())
        .put("name", outcome.photo().place())
        .put("outcome", outcome.hasSurvey() ? "surveyed" : "not surveyed");
    return Progress.timed(line, p.seconds(), p.secondsLeft()).toString();
  }

  private static String line(BatchProgress p) {
    StringBuilder line = new StringBuilder();
    line.append(p.done()).append(" of ").append(p.photos());
    p.perMinute().ifPresent(r -> line.append(String.format(Locale.ROOT, ", %.1f photos/min", r)));
    p.secondsLeft()
        .ifPresent(s -> line.append(", about ").append(Progress.span(s)).append(" left"));
    int lost = p.rejected() + p.failed();
    return lost == 0 ? line.toString() : line.append(", ").append(lost).append(" lost").toString();
  }

  private void clear() {
    if (!quiet && terminal.errIsTerminal()) {
      terminal.clearLine(LINE);
    }
  }

  void end(BatchProgress p, String index) {
    clear();
    if (quiet) {
      return;
    }
    terminal.result(
        String.format(
            Locale.ROOT,
            "%d photographs in %s: %d surveyed, %d unchanged, %d rejected, %d failed",
            p.photos(),
            Progress.span(p.seconds()),
            p.surveyed(),
            p.unchanged(),
            p.rejected(),
            p.failed()));
    terminal.result("archive: " + index);
  }
}
