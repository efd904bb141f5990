package org.diesurvey.report.text;

import java.util.List;
import java.util.Locale;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Survey;

/** Phrases that the pictures and the page share. */
public final class DieWords {
  private DieWords() {}

  /** Size of the die, or of the photograph if no edge was found. */
  public static String size(Survey survey) {
    DieFrame die = survey.die();
    if (die.widthMm().isEmpty() || die.heightMm().isEmpty()) {
      return pixels(survey) + ", no scale: areas are not given in mm\u00b2";
    }
    if (!die.edgeFound()) {
      return die.areaMm2()
          .map(
              a ->
                  (die.partial() ? "visible part of the die, " : "field of ")
                      + Quantities.significant(a.value(), 4)
                      + " mm\u00b2")
          .orElse("field");
    }
    return "die "
        + Quantities.significant(die.widthMm().get().value(), 4)
        + " \u00d7 "
        + Quantities.significant(die.heightMm().get().value(), 4)
        + " mm";
  }

  /** Size of the photograph in pixels. */
  public static String pixels(Survey survey) {
    return survey.photo().widthPx() + " \u00d7 " + survey.photo().heightPx() + "\u00a0px";
  }

  /**
   * What shares are shares of: "die", or "visible part of the die" if the photograph cuts it,
   * "photograph" if no edge was found.
   */
  public static String whole(Survey survey) {
    return survey.die().edgeFound()
        ? "die"
        : survey.die().partial() ? "visible part of the die" : "photograph";
  }

  /** Name of a class with a capital and its short name, unclear areas with their reason. */
  public static String name(ClassTotal total) {
    return plainName(total) + " " + total.dieClass().shortName();
  }

  /** "A, B, C and 4 more". */
  public static String listed(List<String> names, int most) {
    return names.size() <= most + 1
        ? String.join(", ", names)
        : String.join(", ", names.subList(0, most)) + " and " + (names.size() - most) + " more";
  }

  /** "0.81° clockwise", as seen in the photograph. */
  public static String turn(double clockwiseDeg) {
    return Quantities.fixed(Math.abs(clockwiseDeg), 2)
        + "\u00b0 "
        + (clockwiseDeg < 0 ? "anticlockwise" : "clockwise");
  }

  /** Name of a class without its letter. */
  public static String plainName(ClassTotal total) {
    return capital(
        total.dieClass() == DieClass.UNCLEAR
            ? total.reason().map(UnclearReason::label).orElse(DieClass.UNCLEAR.label())
            : total.dieClass().label());
  }

  /** "Empty area", "2 memory arrays": a total as the subject of a sentence. */
  public static String subject(ClassTotal total) {
    return switch (total.dieClass()) {
      case MEMORY_ARRAY -> counted(total.regions(), "memory array");
      case HARD_MACRO -> counted(total.regions(), "hard macro");
      case LOGIC -> "logic";
      case PAD_RING -> "the pad ring";
      case UNCLEAR, OFF_DIE -> total.reason().map(UnclearReason::label).orElse("unclear") + " area";
    };
  }

  private static String counted(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }

  /** How a scale came to be known, for people. */
  public static String origin(ScaleOrigin origin) {
    return switch (origin) {
      case STATED -> "stated by the user";
      case CALIBRATION_FILE -> "measured, from a calibration file";
      case PHOTO_METADATA -> "from the photo's own metadata, which is often meaningless";
      case DIE_SIZE -> "from the stated die size and the die edge found in the photo";
    };
  }

  public static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** Area with its standard uncertainty where there is a scale, and share. */
  public static String amount(ClassTotal total) {
    String share = Quantities.percent(total.shareOfDie());
    return total
        .areaMm2()
        .map(a -> Quantities.withUncertainty(a, "mm\u00b2") + ",  " + share)
        .orElse(share);
  }
}
