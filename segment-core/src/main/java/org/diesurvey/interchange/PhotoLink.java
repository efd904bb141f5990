package org.diesurvey.interchange;

import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * Which photograph outlines belong to, as far as their file says.
 *
 * @param fileName name without folders
 * @param sha256 of the photograph's file, 64 lower-case hex digits
 * @param umPerPx pixel pitch, um/px, above 0
 */
@Supported
public record PhotoLink(
    Optional<String> fileName, Optional<String> sha256, OptionalDouble umPerPx) {
  /** A file that says nothing of its photograph. */
  public static final PhotoLink UNKNOWN =
      new PhotoLink(Optional.empty(), Optional.empty(), OptionalDouble.empty());
}
