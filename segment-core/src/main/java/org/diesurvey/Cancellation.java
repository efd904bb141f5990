package org.diesurvey;

import java.util.ArrayList;
import java.util.List;

/**
 * A wish, from any thread, that work ends. One object may be handed to several pieces of work. They
 * throw {@link CancelledException} within half a second; the interruption of the thread that waits
 * for them has the same effect.
 */
@Supported
public final class Cancellation {
  private final List<Runnable> stops = new ArrayList<>();
  private boolean cancelled;

  /** Ends the work, also that which has not begun yet. A second call does nothing. */
  public void cancel() {
    List<Runnable> now;
    synchronized (this) {
      cancelled = true;
      now = List.copyOf(stops);
    }
    now.forEach(Runnable::run);
  }

  /** Whether the end was asked for. */
  public synchronized boolean cancelled() {
    return cancelled;
  }

  /**
   * What is to be done at {@link #cancel}; done at once if that has been called already.
   *
   * @return takes the wish back when the work is done
   */
  public Registration onCancel(Runnable stop) {
    boolean now;
    synchronized (this) {
      stops.add(stop);
      now = cancelled;
    }
    if (now) {
      stop.run();
    }
    return () -> {
      synchronized (this) {
        stops.remove(stop);
      }
    };
  }

  /** Ends the interest in a cancellation. */
  @FunctionalInterface
  public interface Registration extends AutoCloseable {
    @Override
    void close();
  }

  /**
   * For long loops: throws if the current thread was interrupted, as the threads of cancelled work
   * are. Leaves the mark of the interruption in place.
   *
   * @throws CancelledException if so
   */
  public static void check() {
    if (Thread.currentThread().isInterrupted()) {
      throw new CancelledException("working");
    }
  }
}
