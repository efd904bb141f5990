package org.diesurvey.cli;

import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.IntConsumer;

/**
 * Ends the process when a call takes longer than it may. Results appear complete or not at all, so
 * nothing half-written stands in their place then.
 */
final class TimeLimit implements AutoCloseable {
  /** Longest limit, s. */
  private static final double LONGEST_S = 1e7;

  private final CountDownLatch done = new CountDownLatch(1);

  private TimeLimit() {}

  /**
   * Starts to watch.
   *
   * @param seconds above 0
   * @param end ends the process with an exit code
   */
  static TimeLimit of(double seconds, Terminal terminal, IntConsumer end) {
    TimeLimit limit = new TimeLimit();
    Thread watch = new Thread(() -> limit.watch(seconds, terminal, end), "time limit");
    watch.setDaemon(true);
    watch.start();
    return limit;
  }

  /** Whether it is a time that can be kept. */
  static boolean allowed(double seconds) {
    return seconds > 0 && seconds <= LONGEST_S;
  }

  private void watch(double seconds, Terminal terminal, IntConsumer end) {
    try {
      if (!done.await(Math.max(1, Math.round(1000 * seconds)), TimeUnit.MILLISECONDS)) {
        terminal.remark(
            String.format(
                Locale.ROOT,
                "diesurvey: not done within the %s s of --time-limit, so it was ended; what was"
                    + " finished before is kept.",
                Double.toString(seconds).replaceAll("\\.0$", "")));
        end.accept(ExitCode.OUT_OF_TIME);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public void close() {
    done.countDown();
  }
}
