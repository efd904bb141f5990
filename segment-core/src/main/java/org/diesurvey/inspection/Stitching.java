package org.diesurvey.inspection;

import java.util.List;

/**
 * Signs of a photograph put together from fields.
 *
 * @param judged whether seams could be told from the layout: not where the die lies exactly along
 *     the rows of the picture
 * @param seams straight steps of grey
 * @param repeats stripes that show a place twice
 */
public record Stitching(boolean judged, List<Seam> seams, List<RepeatedStrip> repeats) {
  /** Copies the lists. */
  public Stitching {
    seams = List.copyOf(seams);
    repeats = List.copyOf(repeats);
  }
}
