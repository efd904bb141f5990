package org.diesurvey.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** The moment that surveys are marked with. */
final class Created {
  private static final String VARIABLE = "SOURCE_DATE_EPOCH";

  private Created() {}

  /**
   * Now, or the moment of SOURCE_DATE_EPOCH (whole seconds since 1970, the convention of
   * reproducible-builds.org), so that the same input gives the same bytes.
   *
   * @throws DieInputException if the variable is set to something else
   */
  static Instant moment(Terminal terminal) {
    String fixed = terminal.environment().apply(VARIABLE);
    if (fixed == null || fixed.isEmpty()) {
      return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }
    try {
      return Instant.ofEpochSecond(Long.parseLong(fixed));
    } catch (NumberFormatException | DateTimeException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          VARIABLE
              + " is '"
              + fixed
              + "', not a number of seconds since 1970: correct or unset the variable.",
          e);
    }
  }
}
