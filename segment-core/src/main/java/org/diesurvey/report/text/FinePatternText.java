package org.diesurvey.report.text;

import org.diesurvey.survey.FinePattern;

/** The verdict on the finest pattern of a region in words. */
public final class FinePatternText {
  private FinePatternText() {}

  public static String of(FinePattern f) {
    String finest =
        f.finestUm().isPresent()
            ? Quantities.significant(f.finestUm().getAsDouble(), 2) + " \u00b5m"
            : Quantities.significant(f.finestPx(), 2) + " px";
    return f.verdict().label()
        + switch (f.verdict()) {
          case RESOLVED, ONE_DIRECTION -> "";
          case ALIASED ->
              " (the camera samples more coarsely than the optics resolve; down to " + finest + ")";
          case NOT_RESOLVABLE -> " with these optics (they carry periods down to " + finest + ")";
        };
  }
}
