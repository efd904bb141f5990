package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.diesurvey.DieInputException;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.registration.ComparisonSide;
import org.diesurvey.report.ComparisonFolder;

/**
 * Opens revisions and compares each with the next; at most two photographs are open at a time. The
 * first two are surveyed side by side, where there are threads and memory for both.
 */
final class RevisionSteps implements ComparisonFolder.Steps, AutoCloseable {
  /** A survey takes about 25 MB for a megapixel, which has 0.3 MB and more in a JPEG file. */
  private static final int MEMORY_PER_BYTE = 100;

  private final List<Revision> revisions;
  private final Opening opening;
  private final LayoutComparer comparer;
  private final Progress progress;
  private final int threads;

  /** What could not be used or compared, in order. */
  private final List<DieInputException> refusals = new ArrayList<>();

  private int openNumber = -1;
  private Optional<ComparisonSide> open = Optional.empty();
  private Optional<ComparisonSide> other = Optional.empty();

  /** Opens and surveys a revision. */
  interface Opening {
    /**
     * @param number from 0
     * @param progress told the stages
     */
    ComparisonSide open(int number, Progress progress);
  }

  /**
   * @param opening opens a revision
   * @param threads with one, revisions are surveyed one after the other
   */
  RevisionSteps(
      List<Revision> revisions,
      Opening opening,
      LayoutComparer comparer,
      Progress progress,
      int threads) {
    this.revisions = List.copyOf(revisions);
    this.opening = opening;
    this.comparer = comparer;
    this.progress = progress;
    this.threads = threads;
  }

  List<DieInputException> refusals() {
    return List.copyOf(refusals);
  }

  @Override
  public Optional<ComparisonFolder.Step> step(int number) {
    close(other);
    other = Optional.empty();
    if (openNumber == number - 1) {
      other = open;
      open = Optional.empty();
      open = opened(number);
    } else if (sideBySide(number)) {
      openBoth(number);
    } else {
      other = opened(number - 1);
      open = opened(number);
    }
    Optional<ComparisonSide> earlier = other;
    openNumber = number;
    if (earlier.isEmpty() || open.isEmpty()) {
      return Optional.empty();
    }
    progress.begin(revisions.get(number - 1).name() + " and " + revisions.get(number).name());
    try {
      ComparisonFolder.Step step =
          new ComparisonFolder.Step(
              earlier.get(), open.get(), comparer.compare(earlier.get(), open.get()));
      progress.end("compared");
      return Optional.of(step);
    } catch (DieInputException e) {
      progress.end("not compared");
      refusals.add(e);
      return Optional.empty();
    }
  }

  private boolean sideBySide(int number) {
    Revision a = revisions.get(number - 1);
    Revision b = revisions.get(number);
    return threads > 1
        && a.isPhotograph()
        && b.isPhotograph()
        && (a.bytes() + b.bytes()) * MEMORY_PER_BYTE < Runtime.getRuntime().maxMemory();
  }

  /** Tells of both as if they came one after the other. */
  private void openBoth(int number) {
    CompletableFuture<ComparisonSide> later =
        CompletableFuture.supplyAsync(() -> opening.open(number, progress.silent()));
    try {
      other = opened(number - 1, () -> opening.open(number - 1, progress));
    } finally {
      open = opened(number, () -> joined(later));
    }
  }

  private static ComparisonSide joined(CompletableFuture<ComparisonSide> later) {
    try {
      return later.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException r) {
        throw r;
      }
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e;
    }
  }

  private Optional<ComparisonSide> opened(int number) {
    return opened(number, () -> opening.open(number, progress));
  }

  private Optional<ComparisonSide> opened(int number, Supplier<ComparisonSide> work) {
    progress.begin(revisions.get(number).name());
    try {
      ComparisonSide side = work.get();
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
