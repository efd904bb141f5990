package org.diesurvey.scoring;

import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;

/**
 * Memory against the outlines of whole memories, periphery included: that is what a survey promises
 * to find, while a label map may score bit cells alone.
 */
final class WholeMemories {
  private WholeMemories() {}

  /**
   * Intersection over union of memory with the truth's outlines of memories, over the pixels that
   * are scored or lie in such an outline.
   *
   * @return empty if the truth outlines no memory
   */
  static OptionalDouble iou(Truth truth, LabelRaster predicted) {
    List<TruthOutline> memories =
        truth.outlines().stream().filter(o -> o.dieClass() == DieClass.MEMORY_ARRAY).toList();
    if (memories.isEmpty()) {
      return OptionalDouble.empty();
    }
    LabelRaster labels = truth.labels();
    BitSet inside = new BitSet(labels.array().length);
    for (TruthOutline m : memories) {
      OutlineFill.runs(
          m.outlinePx(),
          labels.width(),
          labels.height(),
          (y, from, to) -> inside.set(y * labels.width() + from, y * labels.width() + to));
    }
    long both = 0;
    long either = 0;
    for (int i = 0; i < labels.array().length; i++) {
      boolean scored = (labels.array()[i] & 0xff) != Truth.NOT_SCORED || inside.get(i);
      boolean found = predicted.array()[i] == (byte) DieClass.MEMORY_ARRAY.code();
      both += inside.get(i) && found ? 1 : 0;
      either += scored && (inside.get(i) || found) ? 1 : 0;
    }
    return OptionalDouble.of(both / (double) either);
  }
}
