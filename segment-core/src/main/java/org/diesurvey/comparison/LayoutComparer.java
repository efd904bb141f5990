package org.diesurvey.comparison;

/**
 * From two surveys with their photographs to a comparison. Immutable; one instance may compare many
 * pairs.
 */
public final class LayoutComparer {
  private final String softwareVersion;

  /**
   * @param softwareVersion for the document
   */
  public LayoutComparer(String softwareVersion) {
    this.softwareVersion = softwareVersion;
  }

  /**
   * Compares the second die with the first.
   *
   * @throws org.diesurvey.DieInputException with {@code NO_COMMON_LAYOUT} if the two are different
   *     chips
   */
  public ComparisonResult compare(ComparisonSide a, ComparisonSide b) {
    throw new UnsupportedOperationException(softwareVersion + a + b);
  }
}
