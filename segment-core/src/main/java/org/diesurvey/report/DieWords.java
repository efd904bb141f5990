package org.diesurvey.report;

import java.util.Locale;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Survey;

/** Phrases that the pictures and the page share. */
final class DieWords {
  private DieWords() {}

  /** Size of the die, or of the photograph if no edge was found. */
  static String size(Survey survey) {
    DieFrame die = survey.die();
    String what = die.edgeFound() ? "die " : "field ";
    if (die.widthMm().isEmpty() || die.heightMm().isEmpty()) {
      return survey.photo().widthPx()
          + " \u00d7 "
          + survey.photo().heightPx()
          + " px, no scale: areas are not given in mm\u00b2";
    }
    return what
        + Quantities.significant(die.widthMm().get().value(), 4)
        + " \u00d7 "
        + Quantities.significant(die.heightMm().get().value(), 4)
        + " mm";
  }

  /** Name of a class with a capital, unclear areas with their reason. */
  static String name(ClassTotal total) {
    if (total.dieClass() == DieClass.UNCLEAR) {
      return capital(total.reason().orElse("unclear"));
    }
    return capital(total.dieClass().label()) + " " + total.dieClass().letter();
  }

  static String capital(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** Area where there is a scale, and share. */
  static String amount(ClassTotal total) {
    String share = Quantities.percent(total.shareOfDie());
    return total
        .areaMm2()
        .map(a -> Quantities.significant(a.value(), 3) + " mm\u00b2   " + share)
        .orElse(share);
  }
}
