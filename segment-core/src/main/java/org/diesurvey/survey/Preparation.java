package org.diesurvey.survey;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.preparation.PreparationStep;

/**
 * What was done to a photograph before it was classified.
 *
 * @param steps in order
 * @param diesInPhoto how many dies with an edge of their own were found, at least 1; 1 also where
 *     no edge was found
 * @param dieNumber which of them was surveyed, from 1: numbered left to right, then top to bottom
 * @param flatField the empty field that the light was measured on; empty if it was estimated
 * @param damage what hides the surface, by kind; kinds that were not found are left out
 * @param damagedShare share of the die that it hides, 0 to 1: the sum over the kinds
 */
@Supported
public record Preparation(
    List<PreparationStep> steps,
    int diesInPhoto,
    int dieNumber,
    Optional<FlatFieldFile> flatField,
    List<DamageShare> damage,
    double damagedShare) {
  /** Nothing done to a photograph of one die. */
  public static final Preparation NONE =
      new Preparation(List.of(), 1, 1, Optional.empty(), List.of(), 0);

  /** Copies the lists. */
  public Preparation {
    steps = List.copyOf(steps);
    damage = List.copyOf(damage);
    if (dieNumber < 1 || dieNumber > diesInPhoto) {
      throw new IllegalArgumentException("die " + dieNumber + " of " + diesInPhoto);
    }
  }

  /**
   * The file of an empty field.
   *
   * @param fileName name without folders
   * @param sha256 of the file's bytes, lower-case hexadecimal
   */
  public record FlatFieldFile(String fileName, String sha256) {}

  /** What hides the surface, as far as its look tells. */
  public enum Damage {
    /** Far brighter than the layer: residue of upper metal, glare. */
    BRIGHT("bright residue or glare"),
    /** Far darker than the layer: dust, a burn. */
    DARK("dark dust or burn"),
    /** Thin and long, bright or dark. */
    SCRATCH("scratch");

    private final String label;

    Damage(String label) {
      this.label = label;
    }

    /** For people. */
    public String label() {
      return label;
    }

    /** As written in documents: the lower-case name. */
    public String id() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * Damage of one kind.
   *
   * @param kind what it looks like
   * @param places number of separate places
   * @param shareOfDie their area over the die's area, 0 to 1
   */
  public record DamageShare(Damage kind, int places, double shareOfDie) {}

  /** The step of a kind, if it was taken. */
  public Optional<PreparationStep> step(PreparationStep.Kind kind) {
    return steps.stream().filter(s -> s.kind() == kind).findFirst();
  }

  /** The steps for people, one sentence each. */
  public List<String> sentences() {
    return steps.stream().map(PreparationStep::sentence).toList();
  }
}
