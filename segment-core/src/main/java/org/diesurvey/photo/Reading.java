package org.diesurvey.photo;

import java.util.List;
import org.diesurvey.Supported;

/**
 * How a file's pictures became the photograph: what a reader of the survey must know of it.
 *
 * @param plane which of the file's pictures it is, from 1
 * @param planes pictures of full size in the file: planes of a stack, channels, or pages
 * @param orientation EXIF orientation that was applied, 1 to 8; 1 is as stored
 * @param conversions what was done to samples that are not 8- or 16-bit grey or RGB, one sentence
 *     each without a full stop
 */
@Supported
public record Reading(int plane, int planes, int orientation, List<String> conversions) {
  /** A file of one picture, used as it is stored. */
  public static final Reading PLAIN = new Reading(1, 1, 1, List.of());

  /** Copies the list. */
  public Reading {
    if (plane < 1 || plane > planes || orientation < 1 || orientation > 8) {
      throw new IllegalArgumentException(
          "plane " + plane + " of " + planes + ", orientation " + orientation);
    }
    conversions = List.copyOf(conversions);
  }

  /** Whether the rows of the photograph are columns of the file. */
  boolean swapsSides() {
    return orientation >= 5;
  }
}
