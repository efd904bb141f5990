package org.diesurvey.comparison.document;

import java.util.List;
import org.diesurvey.Supported;
import org.diesurvey.survey.Notice;

/**
 * Everything that is known of two revisions laid on each other; {@code comparison.json} is its
 * written form.
 *
 * @param softwareVersion version of this program
 * @param unit of all lengths; areas are its square
 * @param a the first die
 * @param b the second die
 * @param registration how the second lies on the first
 * @param changes most significant first
 * @param matches regions of the two surveys by each other, changed and unchanged
 * @param totals class totals and die size, first against second
 * @param estimates bits and gates, first against second
 * @param difference summary of the map of structural difference
 * @param notices warnings
 */
@Supported
public record Comparison(
    String softwareVersion,
    LengthUnit unit,
    ComparedDie a,
    ComparedDie b,
    Registration registration,
    List<Change> changes,
    List<RegionMatch> matches,
    List<QuantityShift> totals,
    List<EstimateShift> estimates,
    DifferenceSummary difference,
    List<Notice> notices) {
  /** Format name in the written form. */
  public static final String FORMAT = "diesurvey-comparison";

  /** Version of the written form. */
  public static final int FORMAT_VERSION = 1;

  /** Copies the lists. */
  public Comparison {
    changes = List.copyOf(changes);
    matches = List.copyOf(matches);
    totals = List.copyOf(totals);
    estimates = List.copyOf(estimates);
    notices = List.copyOf(notices);
  }
}
