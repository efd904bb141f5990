package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import org.diesurvey.DieInputException;
import org.diesurvey.comparison.ComparisonSide;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.report.ComparisonFolder;

/**
 * Opens revisions one after the other and compares each with the next; at most two photographs are
 * open at a time.
 */
final class RevisionSteps implements ComparisonFolder.Steps, AutoCloseable {
  private final List<Revision> revisions;
  private final IntFunction<ComparisonSide> opening;
  private final LayoutComparer comparer;
  private final Progress progress;

  /** What could not be used or compared, in order. */
  private final List<DieInputException> refusals = new ArrayList<>();

  private int openNumber = -1;
  private Optional<ComparisonSide> open = Optional.empty();
  private Optional<ComparisonSide> other = Optional.empty();

  /**
   * @param opening opens the revision of a number from 0
   */
  RevisionSteps(
      List<Revision> revisions,
      IntFunction<ComparisonSide> opening,
      LayoutComparer comparer,
      Progress progress) {
    this.revisions = List.copyOf(revisions);
    this.opening = opening;
    this.comparer = comparer;
    this.progress = progress;
  }

  List<DieInputException> refusals() {
    return List.copyOf(refusals);
  }

  @Override
  public Optional<ComparisonFolder.Step> step(int number) {
    close(other);
    Optional<ComparisonSide> earlier = openNumber == number - 1 ? open : opened(number - 1);
    other = earlier;
    open = Optional.empty();
    open = opened(number);
    openNumber = number;
    if (earlier.isEmpty() || open.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          new ComparisonFolder.Step(
              earlier.get(), open.get(), comparer.compare(earlier.get(), open.get())));
    } catch (DieInputException e) {
      refusals.add(e);
      return Optional.empty();
    }
  }

  private Optional<ComparisonSide> opened(int number) {
    progress.begin(revisions.get(number).name());
    try {
      ComparisonSide side = opening.apply(number);
      progress.end(revisions.get(number).isPhotograph() ? "surveyed" : "read");
      return Optional.of(side);
    } catch (DieInputException e) {
      progress.end("not used");
      refusals.add(e);
      return Optional.empty();
    }
  }

  private static void close(Optional<ComparisonSide> side) {
    side.ifPresent(s -> s.photo().close());
  }

  @Override
  public void close() {
    close(other);
    close(open);
    other = Optional.empty();
    open = Optional.empty();
  }
}
