package org.diesurvey.features.damage;

/** What hides the surface, as far as its look tells. */
public enum DamageKind {
  /** Far brighter than the layer: residue of upper metal, glare. */
  BRIGHT,
  /** Far darker than the layer: dust, a burn. */
  DARK,
  /** Thin and long, bright or dark. */
  SCRATCH,
  /** No damage of the die: a field of the mosaic that was never photographed. */
  MISSING
}
