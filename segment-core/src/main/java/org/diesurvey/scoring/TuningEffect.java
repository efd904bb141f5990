package org.diesurvey.scoring;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * What hangs on one value of the tuning, over several dies.
 *
 * @param name of the value
 * @param unit its unit
 * @param value as it stands
 * @param chosenOn what it was chosen on
 * @param iouLess mean over the dies of the mean IoU with the value a fifth less; empty without dies
 *     that hold a class
 * @param iouNow the same with the value as it stands
 * @param iouMore the same with the value a fifth more
 * @param sharePoints largest change of any class's share of any die, percentage points
 * @param diesChanged dies of which any region or confidence changed either way
 */
public record TuningEffect(
    String name,
    String unit,
    double value,
    String chosenOn,
    OptionalDouble iouLess,
    OptionalDouble iouNow,
    OptionalDouble iouMore,
    double sharePoints,
    int diesChanged) {

  /** Aligned plain text, one line each below a head. */
  public static String text(List<TuningEffect> effects) {
    TextColumns table = new TextColumns();
    table.row(
        List.of(
            "value",
            "unit",
            "now",
            "IoU x 0.8",
            "IoU now",
            "IoU x 1.2",
            "share, points",
            "dies changed"));
    for (TuningEffect e : effects) {
      table.row(
          List.of(
              e.name,
              e.unit,
              String.format(Locale.ROOT, "%s", (float) e.value),
              TextColumns.number(e.iouLess, 4),
              TextColumns.number(e.iouNow, 4),
              TextColumns.number(e.iouMore, 4),
              TextColumns.number(e.sharePoints, 2),
              Integer.toString(e.diesChanged)));
    }
    String[] lines = table.text().split("\n");
    StringBuilder text = new StringBuilder(lines[0]).append("  chosen on\n");
    for (int i = 1; i < lines.length; i++) {
      text.append(lines[i]).append("  ").append(effects.get(i - 1).chosenOn).append('\n');
    }
    return text.toString();
  }
}
