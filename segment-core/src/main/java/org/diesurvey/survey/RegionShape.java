package org.diesurvey.survey;

import java.util.List;
import org.diesurvey.Supported;

/**
 * The outlines of a region in one frame: that of the photograph, px, or that of the die, um.
 *
 * @param outline of the region
 * @param bitCellArrays inner outlines of the bit-cell arrays of a memory region; else empty
 */
@Supported
public record RegionShape(Outline outline, List<Outline> bitCellArrays) {
  /** Copies the list. */
  public RegionShape {
    bitCellArrays = List.copyOf(bitCellArrays);
  }

  /** A region without bit-cell arrays. */
  public static RegionShape of(Outline outline) {
    return new RegionShape(outline, List.of());
  }
}
