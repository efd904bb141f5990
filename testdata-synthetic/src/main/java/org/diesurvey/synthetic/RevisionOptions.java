package org.diesurvey.synthetic;

/**
 * What a caller fixes about a pair of drawn revisions.
 *
 * @param maxMegapixels largest photograph, 1.2..50; dies grow with it, from 1 mm up to 4 mm a side
 * @param fewestChanges 0..8
 * @param mostChanges 0..8, at least {@code fewestChanges}; fewer are made where a die has no room
 * @param growth probability that the second die has grown on one side, 0..1
 * @param severity strength of light, dirt and camera faults: 0 none, 1 ordinary
 */
public record RevisionOptions(
    double maxMegapixels, int fewestChanges, int mostChanges, double growth, double severity) {
  /** Checks the ranges. */
  public RevisionOptions {
    require("maxMegapixels", maxMegapixels, 1.2, 50);
    require("fewestChanges", fewestChanges, 0, 8);
    require("mostChanges", mostChanges, fewestChanges, 8);
    require("growth", growth, 0, 1);
    require("severity", severity, 0, 1);
  }

  private static void require(String name, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          name + " must be in " + low + ".." + high + ", was " + value);
    }
  }

  /** 4 MP, up to 8 changes, one die in ten grown, ordinary faults. */
  public static RevisionOptions defaults() {
    return new RevisionOptions(4, 0, 8, 0.1, 1);
  }

  /** The same with no change at all: two photographs of one revision. */
  public RevisionOptions unchanged() {
    return new RevisionOptions(maxMegapixels, 0, 0, 0, severity);
  }

  /**
   * The same with another size limit.
   *
   * @param value megapixels
   */
  public RevisionOptions withMaxMegapixels(double value) {
    return new RevisionOptions(value, fewestChanges, mostChanges, growth, severity);
  }

  /**
   * The same with other numbers of changes.
   *
   * @param fewest least
   * @param most largest
   */
  public RevisionOptions withChanges(int fewest, int most) {
    return new RevisionOptions(maxMegapixels, fewest, most, growth, severity);
  }

  /**
   * The same with another probability that the die has grown.
   *
   * @param value 0..1
   */
  public RevisionOptions withGrowth(double value) {
    return new RevisionOptions(maxMegapixels, fewestChanges, mostChanges, value, severity);
  }

  /**
   * The same with stronger or weaker faults.
   *
   * @param value 0..1
   */
  public RevisionOptions withSeverity(double value) {
    return new RevisionOptions(maxMegapixels, fewestChanges, mostChanges, growth, value);
  }
}
