package org.diesurvey.scoring;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import org.diesurvey.classification.DieClass;

/**
 * Scores of several dies together. Means go over dies, each die counting the same whatever its
 * size: tiles and regions of one die are not independent of each other.
 *
 * @param cards one per die, in the order given
 */
public record ScoreSummary(List<ScoreCard> cards) {
  /** Copies the list. */
  public ScoreSummary {
    cards = List.copyOf(cards);
  }

  /** Mean over the dies of the mean IoU; empty without dies. */
  public OptionalDouble meanIou() {
    return cards.stream().map(ScoreCard::meanIou).flatMapToDouble(OptionalDouble::stream).average();
  }

  /** The lowest mean IoU of any die; empty without dies. */
  public OptionalDouble worstIou() {
    return cards.stream().map(ScoreCard::meanIou).flatMapToDouble(OptionalDouble::stream).min();
  }

  /** Mean IoU of a class over the dies that truly hold it; empty if none does. */
  public OptionalDouble meanIou(DieClass dieClass) {
    return held(dieClass, c -> c.iou().stream()).average();
  }

  /** Mean absolute error of a class's share, percentage points, over the dies that hold it. */
  public OptionalDouble meanShareErrorPoints(DieClass dieClass) {
    return held(dieClass, c -> DoubleStream.of(Math.abs(c.shareErrorPoints()))).average();
  }

  /** Mean over the dies of each die's largest absolute share error, percentage points. */
  public OptionalDouble meanLargestShareErrorPoints() {
    return cards.stream().mapToDouble(ScoreCard::largestShareErrorPoints).average();
  }

  /** Mean over the dies of the share called unclear; empty without dies. */
  public OptionalDouble meanUnclearShare() {
    return cards.stream().mapToDouble(ScoreCard::unclearShare).average();
  }

  /** Mean over the dies of the share that the truth does not judge, 0 to 1; 0 without dies. */
  public double meanNotScored() {
    return cards.stream().mapToDouble(ScoreCard::notScored).average().orElse(0);
  }

  /** Mean over the dies whose truth outlines whole memories; empty if none does. */
  public OptionalDouble meanWholeMemoryIou() {
    return cards.stream()
        .map(ScoreCard::wholeMemoryIou)
        .flatMapToDouble(OptionalDouble::stream)
        .average();
  }

  /** Mean over the dies with a scale of the median edge distance, um; empty if there is none. */
  public OptionalDouble meanEdgeMedianUm() {
    return scaled(EdgeError::median);
  }

  /** Mean over the dies with a scale of the 95th percentile, um; empty if there is none. */
  public OptionalDouble meanEdgePercentile95Um() {
    return scaled(EdgeError::percentile95);
  }

  /** Regions of all dies by area, every die with the same weight. */
  public Optional<ReliabilityTable> regionsByArea() {
    return pooled(c -> c.regionsByArea().map(ReliabilityTable::normalised));
  }

  /** Regions of all dies, every region counting once. */
  public Optional<ReliabilityTable> regionsEach() {
    return pooled(ScoreCard::regionsEach);
  }

  /** Confidence maps of all dies, every die with the same weight. */
  public Optional<ReliabilityTable> tiles() {
    return pooled(c -> c.tiles().map(ReliabilityTable::normalised));
  }

  /** Dies whose bond pads were counted exactly. */
  public long padsExact() {
    return cards.stream().flatMap(c -> c.pads().stream()).filter(p -> p.error() == 0).count();
  }

  /** Mean absolute error of the bond pad counts, percent; empty if none is known. */
  public OptionalDouble meanPadErrorPercent() {
    return cards.stream()
        .flatMap(c -> c.pads().stream())
        .mapToDouble(p -> Math.abs(p.errorPercent()))
        .average();
  }

  /** Dies whose bond pads were counted and are known. */
  public long padsKnown() {
    return cards.stream().filter(c -> c.pads().isPresent()).count();
  }

  private DoubleStream held(DieClass dieClass, Function<ClassScore, DoubleStream> figure) {
    return cards.stream()
        .map(c -> c.of(dieClass))
        .filter(ClassScore::inTruth)
        .flatMapToDouble(figure);
  }

  private OptionalDouble scaled(Function<EdgeError, OptionalDouble> figure) {
    return cards.stream()
        .filter(c -> c.umPerPx().isPresent())
        .map(c -> figure.apply(c.edges()))
        .flatMapToDouble(OptionalDouble::stream)
        .average();
  }

  private Optional<ReliabilityTable> pooled(Function<ScoreCard, Optional<ReliabilityTable>> table) {
    return cards.stream().flatMap(c -> table.apply(c).stream()).reduce(ReliabilityTable::plus);
  }
}
