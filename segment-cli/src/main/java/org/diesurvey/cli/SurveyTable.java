package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.ScaleRecord.InferredRange;
import org.diesurvey.survey.Survey;

/** A survey as a short text for the console. */
final class SurveyTable {
  private static final int LABEL = 8;
  private static final int WIDTH = 84;

  private final Terminal terminal;

  SurveyTable(Terminal terminal) {
    this.terminal = terminal;
  }

  void print(Path photo, Survey survey, Path folder) {
    terminal.result(terminal.strong(photo.toString()));
    line(survey.die().edgeFound() ? "die" : "field", die(survey));
    line("scale", scale(survey));
    for (String row : totals(survey)) {
      terminal.result(row);
    }
    survey.estimates().ifPresent(e -> EstimateLines.of(e).forEach(terminal::result));
    for (Notice n : survey.notices()) {
      List<String> lines = wrapped(n.sentence() + " " + n.remedy());
      for (int i = 0; i < lines.size(); i++) {
        line(i == 0 ? "warning" : "", terminal.warning(lines.get(i)));
      }
    }
    line("report", folder.resolve(SurveyFolder.REPORT).toString());
    terminal.result("");
  }

  private void line(String label, String text) {
    terminal.result("  " + label + " ".repeat(LABEL - label.length()) + "  " + text);
  }

  /** Broken at blanks, so that the lines stay readable in a narrow window. */
  static List<String> wrapped(String text) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > WIDTH) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  private static String die(Survey survey) {
    DieFrame die = survey.die();
    String area = die.areaMm2().map(a -> ", " + Figures.measured(a) + " mm\u00b2").orElse("");
    if (!die.edgeFound()) {
      return survey.photo().widthPx()
          + " \u00d7 "
          + survey.photo().heightPx()
          + " px"
          + area
          + (die.partial()
              ? " (the photograph cuts the die: its visible part)"
              : " (no die edge found: the whole photograph)");
    }
    String size =
        die.widthMm().isPresent() && die.heightMm().isPresent()
            ? Figures.measured(die.widthMm().get())
                + " \u00d7 "
                + Figures.measured(die.heightMm().get())
                + " mm"
            : String.format(Locale.ROOT, "%,.0f px\u00b2", die.areaPx());
    return size + area + ", turned by " + turn(die.rotationDeg());
  }

  private static String turn(double clockwiseDeg) {
    return Figures.fixed(Math.abs(clockwiseDeg), 2)
        + "\u00b0 "
        + (clockwiseDeg < 0 ? "anticlockwise" : "clockwise");
  }

  private static String scale(Survey survey) {
    Optional<Calibration> c = survey.scale().calibration();
    if (c.isPresent()) {
      String origin =
          switch (c.get().origin()) {
            case STATED -> stated(c.get().note());
            case CALIBRATION_FILE -> c.get().note();
            case PHOTO_METADATA -> "from the file's own tag, often meaningless";
            case DIE_SIZE -> "from the die size stated and the die edge found";
          };
      return Figures.measured(c.get().umPerPx()) + " \u00b5m/px, " + origin;
    }
    Optional<InferredRange> r = survey.scale().inferred();
    return "none"
        + r.map(
                i ->
                    String.format(
                        Locale.ROOT,
                        "; the layout suggests %.2g to %.2g \u00b5m/px, not used for areas",
                        i.lowUmPerPx(),
                        i.highUmPerPx()))
            .orElse("");
  }

  private static String stated(String note) {
    return note.equals(Calibration.STATED_BY_USER) ? "stated" : "stated: " + note;
  }

  private static List<String> totals(Survey survey) {
    Columns table = new Columns();
    boolean scaled = survey.scale().calibration().isPresent();
    table.row(
        "class",
        "regions",
        scaled ? "area, mm\u00b2" : "area",
        survey.die().edgeFound()
            ? "share of die"
            : survey.die().partial() ? "share of part" : "share of photo",
        "confidence");
    for (ClassTotal t : survey.totals()) {
      table.row(
          name(t),
          Integer.toString(t.regions()),
          t.areaMm2().map(Figures::measured).orElse("no scale"),
          share(t.shareOfDie()),
          confidence(survey, t));
    }
    return table.lines(12);
  }

  /** Confidence of the regions of a class, from the least to the most. */
  private static String confidence(Survey survey, ClassTotal t) {
    DoubleSummaryStatistics percent =
        survey.regions().stream()
            .filter(r -> r.dieClass() == t.dieClass() && r.verdict().reason().equals(t.reason()))
            .mapToDouble(r -> Math.rint(100 * r.confidence()))
            .summaryStatistics();
    if (t.dieClass() == DieClass.UNCLEAR || percent.getCount() == 0) {
      return "\u2013";
    }
    String least = whole(percent.getMin());
    String most = whole(percent.getMax());
    return (least.equals(most) ? "" : least + " to ") + most + " %";
  }

  /** Nothing that was estimated is certain. */
  private static String whole(double percent) {
    return percent > 99 ? "> 99" : Figures.fixed(percent, 0);
  }

  private static String share(double share) {
    return share > 0 && share < 0.001 ? "< 0.1 %" : Figures.fixed(100 * share, 1) + " %";
  }

  /** Name of a class, unclear areas with their reason. */
  static String name(ClassTotal t) {
    return t.dieClass() == DieClass.UNCLEAR
        ? "unclear" + t.reason().map(r -> ", " + r.label()).orElse("")
        : t.dieClass().label();
  }
}
