package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.diesurvey.calibration.CalibrationEvidence;
import org.diesurvey.calibration.CalibrationEvidence.PhotoLine;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.UncertaintyBudget.Component;

/** A calibration as a short text for the console. */
final class CalibrationText {
  private final Terminal terminal;

  CalibrationText(Terminal terminal) {
    this.terminal = terminal;
  }

  void print(CalibrationFile file, List<Path> written) {
    Measured p = file.umPerPx();
    CalibrationEvidence e = file.evidence().orElseThrow();
    terminal.result(
        terminal.strong(
            (e.nominal() ? "nominal pitch  " : "pixel pitch  ")
                + Figures.measured(p)
                + " \u00b5m/px"
                + String.format(Locale.ROOT, "  (%.2g %%)", 100 * p.relativeUncertainty())));
    terminal.result(
        "95 % interval  "
            + Figures.significant(e.interval95().low(), 6)
            + " to "
            + Figures.significant(e.interval95().high(), 6)
            + " \u00b5m/px"
            + (e.effectiveDegreesOfFreedom().isPresent()
                ? String.format(
                    Locale.ROOT,
                    ", effective degrees of freedom %.0f",
                    Math.floor(e.effectiveDegreesOfFreedom().getAsDouble()))
                : ""));
    photos(e);
    Columns budget = new Columns();
    budget.row("cause of uncertainty", "\u00b5m/px", "of the pitch");
    for (Component c : e.budget()) {
      budget.row(
          c.name(),
          c.contribution() == 0 ? "0" : Figures.significant(c.contribution(), 2),
          String.format(Locale.ROOT, "%.4f %%", 100 * c.contribution() / p.value()));
    }
    terminal.result("");
    budget.lines(2).forEach(terminal::result);
    terminal.result("");
    e.remarks().forEach(r -> terminal.result("note  " + r));
    written.forEach(w -> terminal.result("written  " + w));
  }

  private void photos(CalibrationEvidence e) {
    if (e.photos().isEmpty()) {
      return;
    }
    Columns table = new Columns();
    table.row("photograph", "\u00b5m/px", "lines", "rotation", "scatter");
    for (PhotoLine p : e.photos()) {
      table.row(
          p.file(),
          Figures.measured(p.umPerPx()),
          Integer.toString(p.lines()),
          Figures.fixed(p.rotationDeg(), 2) + "\u00b0",
          Figures.fixed(p.scatterPx(), 3) + " px");
    }
    terminal.result("");
    table.lines(2).forEach(terminal::result);
  }
}
