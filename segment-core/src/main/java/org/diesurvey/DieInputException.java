package org.diesurvey;

/**
 * The input's mistake: a photograph, scale, model or file that cannot be used. The message is one
 * sentence that names the place, what was seen and what to do; it is meant for the person at the
 * command line.
 */
@Supported
public final class DieInputException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * What kind of input is at fault; the identifier is stable and appears in machine-readable
   * output.
   */
  public enum Reason {
    FILE_MISSING,
    FILE_IS_DIRECTORY,
    FILE_EMPTY,
    FILE_UNREADABLE,
    FORMAT_UNKNOWN,
    FORMAT_UNSUPPORTED,
    FILE_TRUNCATED,
    PHOTO_TOO_SMALL,
    PHOTO_TOO_LARGE,
    PHOTO_WITHOUT_CONTENT,
    SCALE_INVALID,
    SCALE_CONTRADICTORY,
    DIE_EDGE_NOT_FOUND,
    DIE_NUMBER_UNKNOWN,
    PLANE_UNKNOWN,
    FLAT_FIELD_UNUSABLE,
    DOCUMENT_INVALID,
    MODEL_INVALID,
    OUTPUT_NOT_WRITABLE,
    NODE_NOT_IN_TABLE,
    DENSITIES_INVALID,
    OUTLINES_INVALID,
    MICROMETER_UNUSABLE,
    PHOTO_ALTERED,
    NO_COMMON_LAYOUT
  }

  private final Reason reason;

  /**
   * @param reason what kind of input is at fault
   * @param message one sentence: where, what was seen, what to do
   */
  public DieInputException(Reason reason, String message) {
    super(message);
    this.reason = reason;
  }

  /**
   * @param reason what kind of input is at fault
   * @param message one sentence: where, what was seen, what to do
   * @param cause the failure below, shown only with the debug switch
   */
  public DieInputException(Reason reason, String message, Throwable cause) {
    super(message, cause);
    this.reason = reason;
  }

  /** What kind of input is at fault. */
  public Reason reason() {
    return reason;
  }
}
