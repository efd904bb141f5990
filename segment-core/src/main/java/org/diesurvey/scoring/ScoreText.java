package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;

/** Scores as aligned plain text for a console; "-" stands for a figure that is not known. */
public final class ScoreText {
  private ScoreText() {}

  /** All dies, one line each, then their means and the reliability of the stated confidence. */
  public static String of(ScoreSummary summary) {
    StringBuilder text = new StringBuilder();
    text.append("Intersection over union by class; edge distance from true to found edges\n");
    text.append(overlap(summary)).append('\n');
    text.append(
        "What the truth leaves out (label 255), and memory against outlines of whole ones\n");
    text.append(leftOut(summary)).append('\n');
    text.append("Found share of the die minus true share, percentage points\n");
    text.append(shares(summary));
    Optional<ReliabilityTable> byArea = summary.regionsByArea();
    Optional<ReliabilityTable> each = summary.regionsEach();
    Optional<ReliabilityTable> tiles = summary.tiles();
    byArea.ifPresent(t -> text.append(section("Confidence of regions, weighted by area", t, true)));
    each.ifPresent(t -> text.append(section("Confidence of regions, each once", t, false)));
    tiles.ifPresent(t -> text.append(section("Confidence of tiles, weighted by area", t, true)));
    return text.toString();
  }

  /** One die: the confusion matrix, in mm2 where there is a scale, and in percent. */
  public static String confusion(ScoreCard card) {
    ConfusionMatrix m = card.confusion();
    double scored = Math.max(1, m.scored());
    StringBuilder text = new StringBuilder();
    if (card.umPerPx().isPresent()) {
      double pixelMm2 = ScoreJson.pixelMm2(card.umPerPx().getAsDouble());
      text.append(card.die()).append(": rows true, columns found, mm2\n");
      text.append(matrix(m, pixelMm2, 4)).append('\n');
    }
    text.append(card.die()).append(": rows true, columns found, percent of the scored area\n");
    return text.append(matrix(m, 100 / scored, 2)).toString();
  }

  private static String overlap(ScoreSummary summary) {
    TextColumns table = new TextColumns();
    List<String> head = new ArrayList<>(List.of("die", "mean"));
    ScoredClasses.ON_DIE.forEach(c -> head.add(c.label()));
    head.addAll(List.of("unclear %", "edge median", "edge 95 %", "unit", "ECE", "bond pads"));
    table.row(head);
    for (ScoreCard card : summary.cards()) {
      List<String> row = new ArrayList<>();
      row.add(card.die());
      row.add(TextColumns.number(card.meanIou(), 3));
      for (ClassScore c : card.classes()) {
        row.add(c.inTruth() ? TextColumns.number(c.iou(), 3) : "-");
      }
      row.add(TextColumns.number(100 * card.unclearShare(), 1));
      row.add(TextColumns.number(card.edges().median(), 1));
      row.add(TextColumns.number(card.edges().percentile95(), 1));
      row.add(card.edges().unit());
      row.add(TextColumns.number(error(card.regionsByArea()), 3));
      row.add(card.pads().map(p -> p.counted() + " of " + p.actual()).orElse("-"));
      table.row(row);
    }
    List<String> mean = new ArrayList<>();
    mean.add("mean of dies");
    mean.add(TextColumns.number(summary.meanIou(), 3));
    ScoredClasses.ON_DIE.forEach(c -> mean.add(TextColumns.number(summary.meanIou(c), 3)));
    OptionalDouble unclear = summary.meanUnclearShare();
    mean.add(unclear.isPresent() ? TextColumns.number(100 * unclear.getAsDouble(), 1) : "-");
    mean.add(TextColumns.number(summary.meanEdgeMedianUm(), 1));
    mean.add(TextColumns.number(summary.meanEdgePercentile95Um(), 1));
    mean.add("um");
    mean.add(TextColumns.number(error(summary.regionsByArea()), 3));
    mean.add(
        summary.padsKnown() == 0
            ? "-"
            : "off by " + TextColumns.number(summary.meanPadErrorPercent(), 1) + " %");
    return table.row(mean).text();
  }

  private static String leftOut(ScoreSummary summary) {
    TextColumns table = new TextColumns();
    table.row(List.of("die", "not scored, % of the die", "whole memories, IoU"));
    for (ScoreCard card : summary.cards()) {
      table.row(
          List.of(
              card.die(),
              TextColumns.number(100 * card.notScored(), 1),
              TextColumns.number(card.wholeMemoryIou(), 3)));
    }
    return table
        .row(
            List.of(
                "mean of dies",
                TextColumns.number(100 * summary.meanNotScored(), 1),
                TextColumns.number(summary.meanWholeMemoryIou(), 3)))
        .text();
  }

  private static String shares(ScoreSummary summary) {
    TextColumns table = new TextColumns();
    List<String> head = new ArrayList<>(List.of("die"));
    ScoredClasses.ON_DIE.forEach(c -> head.add(c.label()));
    head.add("largest");
    table.row(head);
    for (ScoreCard card : summary.cards()) {
      List<String> row = new ArrayList<>(List.of(card.die()));
      card.classes().forEach(c -> row.add(TextColumns.signed(c.shareErrorPoints(), 2)));
      row.add(TextColumns.number(card.largestShareErrorPoints(), 2));
      table.row(row);
    }
    List<String> mean = new ArrayList<>(List.of("mean without sign"));
    for (DieClass c : ScoredClasses.ON_DIE) {
      mean.add(TextColumns.number(summary.meanShareErrorPoints(c), 2));
    }
    mean.add(TextColumns.number(summary.meanLargestShareErrorPoints(), 2));
    return table.row(mean).text();
  }

  private static String section(String title, ReliabilityTable table, boolean asShare) {
    TextColumns rows = new TextColumns();
    rows.row(List.of("confidence", asShare ? "% of area" : "regions", "mean stated", "right"));
    double total = table.totalWeight();
    for (ReliabilityTable.Bin b : table.bins()) {
      if (b.weight() > 0) {
        rows.row(
            List.of(
                TextColumns.number(b.low(), 2) + " to " + TextColumns.number(b.high(), 2),
                asShare
                    ? TextColumns.number(100 * b.weight() / total, 1)
                    : TextColumns.number(b.weight(), 0),
                TextColumns.number(b.meanConfidence(), 3),
                TextColumns.number(b.shareRight(), 3)));
      }
    }
    return "\n"
        + title
        + ": expected calibration error "
        + TextColumns.number(table.expectedError(), 3)
        + "\n"
        + rows.text();
  }

  private static String matrix(ConfusionMatrix m, double perPixel, int decimals) {
    TextColumns table = new TextColumns();
    List<String> head = new ArrayList<>(List.of(""));
    m.columns().forEach(c -> head.add(c.label()));
    table.row(head);
    for (DieClass t : m.rows()) {
      List<String> row = new ArrayList<>(List.of(t.label()));
      m.columns().forEach(p -> row.add(TextColumns.number(m.count(t, p) * perPixel, decimals)));
      table.row(row);
    }
    return table.text();
  }

  private static OptionalDouble error(Optional<ReliabilityTable> table) {
    return table.isPresent()
        ? OptionalDouble.of(table.get().expectedError())
        : OptionalDouble.empty();
  }
}
