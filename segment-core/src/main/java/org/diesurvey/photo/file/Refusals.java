package org.diesurvey.photo.file;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * The sentences with which one photograph is refused: each names the file, what was seen and what
 * to do.
 *
 * @param file the name to show
 */
public record Refusals(String file) {
  private static final String RESAVE = "save it as 8- or 16-bit grey or RGB (PNG or TIFF)";

  public DieInputException unsupported(String seen) {
    return new DieInputException(
        Reason.FORMAT_UNSUPPORTED,
        file + " holds " + seen + ", which this program does not read: " + RESAVE + ".");
  }

  public DieInputException truncated(String seen) {
    return new DieInputException(
        Reason.FILE_TRUNCATED,
        file + " is cut short (" + seen + "): copy or export the file again.");
  }

  public DieInputException damaged(String seen) {
    return damaged(seen, null);
  }

  public DieInputException damaged(String seen, Throwable cause) {
    return new DieInputException(
        Reason.FILE_UNREADABLE,
        file + " is damaged (" + seen + "): copy or export the file again.",
        cause);
  }

  public DieInputException unreadable(Throwable cause) {
    return new DieInputException(
        Reason.FILE_UNREADABLE,
        file + " cannot be read: check that the drive is connected and that you may open the file.",
        cause);
  }
}
