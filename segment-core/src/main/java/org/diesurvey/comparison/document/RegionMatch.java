package org.diesurvey.comparison.document;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;

/**
 * Regions of the two surveys that stand for the same ground.
 *
 * @param regionsA ids in the first survey; several where regions were merged, none where the second
 *     survey alone has it
 * @param regionsB ids in the second survey; several where a region was split
 * @param verdict what became of it
 * @param change id of the change that explains it; empty if there is none
 * @param overlap common area over joint area, 0 to 1, after registration
 * @param similarity median structural correlation inside, -1 to 1; empty where it cannot be judged
 * @param note for verdicts that need one, one sentence; else empty
 */
@Supported
public record RegionMatch(
    List<String> regionsA,
    List<String> regionsB,
    Verdict verdict,
    Optional<String> change,
    double overlap,
    Optional<Double> similarity,
    String note) {
  /** Copies the lists. */
  public RegionMatch {
    regionsA = List.copyOf(regionsA);
    regionsB = List.copyOf(regionsB);
  }

  /** What became of matched regions. */
  public enum Verdict {
    /** Same picture, same outline within the uncertainty. */
    UNCHANGED("unchanged"),
    /** See the change. */
    CHANGED("changed"),
    /** The pictures agree, the two surveys do not: no change of the die. */
    JUDGED_DIFFERENTLY("judged-differently"),
    /** The pictures carry too little structure here, or hide it. */
    NOT_JUDGED("not-judged"),
    /** Not seen on the other photograph. */
    NOT_SEEN("not-seen");

    private final String id;

    Verdict(String id) {
      this.id = id;
    }

    /** As written in documents. */
    public String id() {
      return id;
    }
  }
}
