package org.diesurvey.scoring;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;

/**
 * How well one die was surveyed. {@link DieScorer} says how each figure is defined.
 *
 * @param die name
 * @param umPerPx true pixel pitch; empty if unknown, areas are then in square pixels only
 * @param confusion pixel counts, true class by predicted class
 * @param classes memory array, hard macro, logic, pad ring, in this order
 * @param edges all on-die classes together
 * @param regionsByArea reliability of the regions' confidence, weighted by scored area; empty if
 *     there are no scored regions
 * @param regionsEach the same, every region counting once
 * @param tiles reliability of the confidence map; empty if there is none
 * @param notScored share of the die that the truth does not judge (label 255), 0 to 1
 * @param wholeMemoryIou memory against the outlines of whole memories; empty if the truth has none
 * @param pads bond pads; empty if either number is unknown
 */
public record ScoreCard(
    String die,
    OptionalDouble umPerPx,
    ConfusionMatrix confusion,
    List<ClassScore> classes,
    EdgeError edges,
    Optional<ReliabilityTable> regionsByArea,
    Optional<ReliabilityTable> regionsEach,
    Optional<ReliabilityTable> tiles,
    double notScored,
    OptionalDouble wholeMemoryIou,
    Optional<PadCount> pads) {

  /** Copies the list. */
  public ScoreCard {
    classes = List.copyOf(classes);
  }

  /** Mean IoU over the on-die classes that the truth holds; empty if it holds none. */
  public OptionalDouble meanIou() {
    return confusion.meanIou();
  }

  /** Largest absolute error of any class's share, percentage points. */
  public double largestShareErrorPoints() {
    return classes.stream().mapToDouble(c -> Math.abs(c.shareErrorPoints())).max().orElse(0);
  }

  /** Share of the scored on-die area that was called unclear, 0 to 1. */
  public double unclearShare() {
    return onDieShare(DieClass.UNCLEAR);
  }

  /** Share of the scored on-die area that was called off-die, 0 to 1. */
  public double lostShare() {
    return onDieShare(DieClass.OFF_DIE);
  }

  /** The score of one on-die class. */
  public ClassScore of(DieClass dieClass) {
    return classes.stream().filter(c -> c.dieClass() == dieClass).findFirst().orElseThrow();
  }

  private double onDieShare(DieClass predicted) {
    long whole = confusion.scoredOnDie();
    long part = confusion.predictedCount(predicted, ScoredClasses.ON_DIE);
    return whole == 0 ? 0 : part / (double) whole;
  }
}
