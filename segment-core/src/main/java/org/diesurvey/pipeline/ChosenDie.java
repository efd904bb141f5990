package org.diesurvey.pipeline;

import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieFrames;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.edges.EdgeTuning;

/**
 * The die that is surveyed, of all that a photograph shows.
 *
 * @param all dies of the photograph
 * @param number of the one that is surveyed, from 1
 * @param stated whether the user chose it
 */
record ChosenDie(DieFrames all, int number, boolean stated) {
  static ChosenDie of(DiePhoto photo, PhotoOptions options, EdgeTuning edges) {
    DieFrames all = PreparedDie.locateAll(photo.pixels(), edges);
    if (options.dieNumber().isEmpty()) {
      return new ChosenDie(all, all.usual(photo.pixels().width(), photo.pixels().height()), false);
    }
    int number = options.dieNumber().getAsInt();
    int count = all.dies().size();
    if (number > count) {
      String remedy =
          count == 1
              ? "leave the number of the die away"
              : "choose one that is counted left to right, then top to bottom";
      throw new DieInputException(
          Reason.DIE_NUMBER_UNKNOWN,
          String.format(
              Locale.ROOT,
              "%s: dies found: %d, so there is no die %d: %s.",
              photo.info().fileName(),
              count,
              number,
              remedy));
    }
    return new ChosenDie(all, number, true);
  }

  DieLocation frame() {
    return all.die(number);
  }
}
