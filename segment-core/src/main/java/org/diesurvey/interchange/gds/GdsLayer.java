package org.diesurvey.interchange.gds;

import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;

/**
 * The layer map of our GDSII files: the layer of a class is its code in label maps, datatype 0 is a
 * region and datatype 1 a bit-cell array inside a memory. Layer 0 carries the outline of the die.
 *
 * @param layer 0 to 255
 * @param datatype 0 or 1
 */
record GdsLayer(int layer, int datatype) {
  /** The outline of the die. */
  static final GdsLayer DIE = new GdsLayer(DieClass.OFF_DIE.code(), 0);

  /** Bit-cell arrays. */
  static final GdsLayer BIT_CELLS = new GdsLayer(DieClass.MEMORY_ARRAY.code(), 1);

  /** The map in one line, for messages. */
  static final String MAP =
      "0 die outline, 1 memory array (datatype 1: bit-cell array), 2 hard macro, 3 logic, 4 pad"
          + " ring, 255 unclear";

  static GdsLayer of(ClassedOutline o) {
    return o.inner() ? BIT_CELLS : new GdsLayer(o.dieClass().code(), 0);
  }

  /** The class of the outlines on this layer; empty where the map has none. */
  Optional<DieClass> dieClass() {
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE && c.code() == layer && (datatype == 0 || equals(BIT_CELLS))) {
        return Optional.of(c);
      }
    }
    return Optional.empty();
  }
}
