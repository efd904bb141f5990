package org.diesurvey.survey;

import java.util.Locale;

/** The notices that may make every figure of a survey worthless. */
public enum SevereNotice {
  /** Metal seems to hide the layout. */
  METAL_LEFT,
  /** The picture as a whole is unlike those that the model was trained on. */
  UNLIKE_TRAINING_DATA,
  /** No lengths and areas, only shares. */
  NO_SCALE,
  /** The photograph shows a part of the die. */
  DIE_CUT,
  /** Made with other values than those that were tested. */
  OTHER_TUNING;

  /** As the survey holds it, for example "no-scale". */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The notice of this kind. */
  public Notice says(String sentence, String remedy) {
    return new Notice(id(), sentence, remedy);
  }

  /** Whether a notice is one of these. */
  public static boolean holds(Notice notice) {
    for (SevereNotice s : values()) {
      if (s.id().equals(notice.id())) {
        return true;
      }
    }
    return false;
  }
}
