package org.diesurvey.pipeline;

import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieFrames;
import org.diesurvey.preparation.PreparedDie;

/**
 * The die that is surveyed, of all that a photograph shows.
 *
 * @param all dies of the photograph
 * @param number of the one that is surveyed, from 1
 * @param stated whether the user chose it
 */
record ChosenDie(DieFrames all, int number, boolean stated) {
  static ChosenDie of(DiePhoto photo, PhotoOptions options) {
    DieFrames all = PreparedDie.locateAll(photo.pixels());
    if (options.dieNumber().isEmpty()) {
      return new ChosenDie(all, all.usual(photo.pixels().width(), photo.pixels().height()), false);
    }
    int number = options.dieNumber().getAsInt();
    int count = all.dies().size();
    if (number > count) {
      throw new DieInputException(
          Reason.DIE_NUMBER_UNKNOWN,
          String.format(
              Locale.ROOT,
              count == 1
                  ? "%s shows one die, so there is no die %d: leave the number of the die away."
                  : "%s shows %3$d dies, so there is no die %2$d: choose a number from 1 to %3$d,"
                      + " counted left to right, then top to bottom.",
              photo.info().fileName(),
              number,
              count));
    }
    return new ChosenDie(all, number, true);
  }

  PreparedDie.Frame frame() {
    return all.die(number);
  }
}
