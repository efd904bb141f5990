package org.diesurvey.cli;

/** An option whose value is out of range; the call is wrong and nothing is done. */
final class WrongOption extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * @param option its name
   * @param what is wrong with it: what is allowed, what was seen
   */
  WrongOption(String option, String what) {
    super(option + " " + what + ".");
  }
}
