package org.diesurvey.classification;

import java.util.Optional;
import org.diesurvey.Supported;

/** Why a place of the die has no class. */
@Supported
public enum UnclearReason {
  /** Bare ground: nothing lies there. */
  EMPTY("empty"),
  /** The evidence does not decide between classes. */
  UNDECIDED("undecided"),
  /** Residue, dust, glare or scratches hide the surface. */
  DAMAGED("damaged"),
  /** A field of the photograph that shows nothing at all. */
  MISSING("missing");

  private final String label;

  UnclearReason(String label) {
    this.label = label;
  }

  /** Name for people and documents. */
  public String label() {
    return label;
  }

  /** Whether the surface is not to be seen, so that nothing is known of what lies there. */
  public boolean hides() {
    return this == DAMAGED || this == MISSING;
  }

  /** The reason with this label, if there is one. */
  public static Optional<UnclearReason> ofLabel(String label) {
    for (UnclearReason r : values()) {
      if (r.label.equals(label)) {
        return Optional.of(r);
      }
    }
    return Optional.empty();
  }
}
