package org.diesurvey.pipeline;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;

/** Work on a number of threads of its own. */
public final class Workers {
  private Workers() {}

  /**
   * Runs work, and all that it does in parallel, on its own threads, and waits for it. What it
   * throws is thrown here.
   *
   * @param threads at least 1
   * @param what is being done, for the message if the waiting thread is interrupted
   */
  public static <T> T run(int threads, String what, Callable<T> work) {
    ForkJoinPool pool = new ForkJoinPool(threads);
    try {
      return pool.submit(work).get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while " + what, e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException r) {
        throw r;
      }
      if (e.getCause() instanceof Error err) {
        throw err;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdown();
    }
  }
}
