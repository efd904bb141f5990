package org.diesurvey.archive;

/**
 * A photograph whose survey was not finished: out of time, out of memory, or a fault of this
 * program. It is tried again in the next run.
 */
public final class PhotoFailure extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** What happened; the name is stable and stands in the archive. */
  public enum Kind {
    /** The time limit passed. */
    TIME_LIMIT,
    /** The memory ran out. */
    OUT_OF_MEMORY,
    /** The process that surveyed it ended, for example by a fault in native code. */
    WORKER_LOST,
    /** A fault of this program. */
    PROGRAM_FAULT
  }

  private final Kind kind;

  /**
   * @param kind what happened
   * @param message one sentence
   * @param cause the fault below; null if there is none
   */
  public PhotoFailure(Kind kind, String message, Throwable cause) {
    super(message, cause);
    this.kind = kind;
  }

  /** What happened. */
  public Kind kind() {
    return kind;
  }
}
