package org.diesurvey.pipeline;

import java.util.List;
import java.util.Optional;

/**
 * The outlines of one file.
 *
 * @param fileName without folders
 * @param sha256 of the file, hexadecimal
 * @param inUm whether coordinates are um of the die frame (origin lower left, y up); else px of the
 *     photograph (origin upper left, y down)
 * @param photoSha256 SHA-256 of the photograph that they were drawn on, where the file says
 * @param regions in the order of the file
 */
public record HandOutlines(
    String fileName,
    String sha256,
    boolean inUm,
    Optional<String> photoSha256,
    List<HandOutline> regions) {
  /** Copies the list. */
  public HandOutlines {
    regions = List.copyOf(regions);
  }
}
