package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;

/** Works on many things a few at a time. */
final class AtATime {
  private AtATime() {}

  /**
   * What becomes of each, in their order; each is worked on by one thread.
   *
   * @param most at the same time, at least 1
   */
  static <T, R> List<R> each(List<T> things, int most, Function<T, R> work) {
    ExecutorService pool = Executors.newFixedThreadPool(most);
    try {
      List<Future<R>> running = new ArrayList<>();
      for (T thing : things) {
        running.add(pool.submit(() -> work.apply(thing)));
      }
      List<R> out = new ArrayList<>();
      for (Future<R> f : running) {
        out.add(f.get());
      }
      return out;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException r) {
        throw r;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }
}
