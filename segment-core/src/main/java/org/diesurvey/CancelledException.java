package org.diesurvey;

/** Work was given up because the caller asked for it; nothing was written. */
@Supported
public final class CancelledException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * @param what was being done, for example "surveying die.tif"
   */
  public CancelledException(String what) {
    super("cancelled while " + what);
  }
}
