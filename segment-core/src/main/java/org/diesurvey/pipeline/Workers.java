package org.diesurvey.pipeline;

import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.diesurvey.Cancellation;
import org.diesurvey.CancelledException;

/** Work on a number of threads of its own. */
public final class Workers {
  /** How long cancelled work is waited for; what still runs then ends by itself soon after. */
  private static final long LAST_WORDS_MS = 300;

  private Workers() {}

  /**
   * Runs work, and all that it does in parallel, on its own threads, and waits for it. What it
   * throws is thrown here.
   *
   * @param threads at least 1
   * @param what is being done, for the message if the waiting thread is interrupted
   * @throws CancelledException if the waiting thread is interrupted; its mark stays set
   */
  public static <T> T run(int threads, String what, Callable<T> work) {
    return run(threads, what, new Cancellation(), work);
  }

  /**
   * The same, to be ended from elsewhere.
   *
   * @param cancellation ends the work
   * @throws CancelledException if it was cancelled, or the waiting thread interrupted
   */
  public static <T> T run(int threads, String what, Cancellation cancellation, Callable<T> work) {
    ForkJoinPool pool = new ForkJoinPool(threads);
    // A pool that is shut down takes no further part of the work, and interrupts what runs.
    try (Cancellation.Registration until = cancellation.onCancel(pool::shutdownNow)) {
      Future<T> result = pool.submit(work);
      return result.get();
    } catch (InterruptedException e) {
      end(pool);
      Thread.currentThread().interrupt();
      throw new CancelledException(what);
    } catch (CancellationException | java.util.concurrent.RejectedExecutionException e) {
      throw given(pool, what);
    } catch (ExecutionException e) {
      if (cancellation.cancelled() || e.getCause() instanceof CancelledException) {
        throw given(pool, what);
      }
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

  private static CancelledException given(ForkJoinPool pool, String what) {
    boolean interrupted = Thread.interrupted() | end(pool);
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    return new CancelledException(what);
  }

  /** Whether the thread was interrupted while it waited. */
  private static boolean end(ForkJoinPool pool) {
    pool.shutdownNow();
    try {
      boolean ended = pool.awaitTermination(LAST_WORDS_MS, TimeUnit.MILLISECONDS);
      return !ended && Thread.interrupted();
    } catch (InterruptedException e) {
      return true;
    }
  }
}
