package org.diesurvey.archive;

import java.util.Optional;
import org.diesurvey.Supported;

/**
 * What the owner says of a photograph; never changes a survey.
 *
 * @param dieName name of the die
 * @param revision of the die (mask change)
 * @param layer that is seen, for example "diffusion"
 * @param notes free text
 */
@Supported
public record PhotoLabels(
    Optional<String> dieName,
    Optional<String> revision,
    Optional<String> layer,
    Optional<String> notes) {
  /** Nothing said. */
  public static final PhotoLabels NONE =
      new PhotoLabels(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
}
