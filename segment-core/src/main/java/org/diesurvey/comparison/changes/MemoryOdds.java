package org.diesurvey.comparison.changes;

/** Log odds of memory against macro that two pictures give for one block. */
final class MemoryOdds {
  /** From which a block is a memory. */
  static final double MEMORY = 0.7;

  /** The same where the pictures lie far apart. */
  private static final double LIKELY_MEMORY = 0.4;

  private static final double FAR_APART = 2;

  /** Difference that makes another class where both would be memories; else half of it. */
  private static final double OTHER_CLASS = 1;

  private MemoryOdds() {}

  /** Whether the block is a memory in one picture and a macro in the other. */
  static boolean differ(double a, double b) {
    double apart = Math.abs(a - b);
    double most = apart > FAR_APART ? LIKELY_MEMORY : MEMORY;
    double least = Math.min(a, b) > MEMORY ? OTHER_CLASS : 0.5 * OTHER_CLASS;
    return Math.max(a, b) > most && apart > least;
  }
}
