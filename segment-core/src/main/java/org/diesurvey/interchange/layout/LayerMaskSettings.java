package org.diesurvey.interchange.layout;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * What a mask is made of and what its record says.
 *
 * @param cell structure of the layout; empty for its one top structure
 * @param layers which layers become which bits
 * @param umPerPx side of a pixel, um, 0.01 to 10
 * @param blockClass one of {@link #CLASSES}
 * @param kind what the block is, in words; may be empty
 * @param technology name of the technology; blocks of one name are left out together when a model
 *     is tried on a technology that it has not seen
 * @param nodeNm process node, nm
 * @param bitCells names of structures that hold one bit each
 * @param window part of the structure; empty for all of it
 */
public record LayerMaskSettings(
    Optional<String> cell,
    LayoutLayers layers,
    double umPerPx,
    String blockClass,
    String kind,
    String technology,
    OptionalDouble nodeNm,
    List<String> bitCells,
    Optional<LayoutWindow> window) {
  /** Classes of blocks. */
  public static final Set<String> CLASSES = Set.of("memory", "rom", "macro", "logic", "io", "fill");

  /** Copies the list and rejects what no mask can have. */
  public LayerMaskSettings {
    bitCells = List.copyOf(bitCells);
    if (!(umPerPx >= 0.01 && umPerPx <= 10) || !CLASSES.contains(blockClass)) {
      throw new IllegalArgumentException(umPerPx + " um/px, class " + blockClass);
    }
  }
}
