package org.diesurvey.features.damage;

import java.util.Locale;

/** What hides the surface, as far as its look tells. */
public enum DamageKind {
  /** Far brighter than the layer: residue of upper metal, glare. */
  BRIGHT("bright residue or glare"),
  /** Far darker than the layer: dust, a burn. */
  DARK("dark dust or burn"),
  /** Thin and long, bright or dark. */
  SCRATCH("scratch"),
  /** No damage of the die: a field of the mosaic that was never photographed. */
  MISSING("missing field of the photograph");

  private final String label;

  DamageKind(String label) {
    this.label = label;
  }

  /** For people. */
  public String label() {
    return label;
  }

  /** For documents: the lower-case name. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }
}
