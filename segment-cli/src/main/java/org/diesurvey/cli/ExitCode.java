package org.diesurvey.cli;

/** What the command tells its caller; part of the documented interface. */
final class ExitCode {
  /** All photographs were surveyed, or whatever else was asked for is done. */
  static final int DONE = 0;

  /** Some photographs were rejected; the others are done. */
  static final int SOME_REJECTED = 1;

  /** The call itself is wrong; nothing was done. */
  static final int WRONG_CALL = 2;

  /**
   * The call took longer than its {@code --time-limit}; the number is that of the program timeout
   * of GNU coreutils.
   */
  static final int OUT_OF_TIME = 124;

  /** A fault of this program; the number is that of EX_SOFTWARE in BSD's sysexits.h (memory). */
  static final int PROGRAM_FAULT = 70;

  private ExitCode() {}
}
