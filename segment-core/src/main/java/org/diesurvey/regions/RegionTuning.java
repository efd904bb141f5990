package org.diesurvey.regions;

import java.util.List;
import java.util.stream.Stream;
import org.diesurvey.TunedValue;
import org.diesurvey.regions.ring.RingTuning;

/**
 * What decides classes and outlines of regions.
 *
 * @param ring how deep the pad ring is
 * @param memories which blocks are memories
 * @param macros which blocks are macros
 * @param patches which patches are no blocks
 * @param outlines where outlines run
 */
public record RegionTuning(
    RingTuning ring,
    MemoryTuning memories,
    MacroTuning macros,
    PatchTuning patches,
    OutlineTuning outlines) {
  /** The values of ordinary surveys. */
  public static final RegionTuning DEFAULT =
      new RegionTuning(
          RingTuning.DEFAULT,
          MemoryTuning.DEFAULT,
          MacroTuning.DEFAULT,
          PatchTuning.DEFAULT,
          OutlineTuning.DEFAULT);

  /** All of them, each with what it was chosen on. */
  public List<TunedValue<RegionTuning>> values() {
    return Stream.of(
            ring.values().stream().map(v -> v.within("ring", this::withRing)),
            memories.values().stream().map(v -> v.within("memories", this::withMemories)),
            macros.values().stream().map(v -> v.within("macros", this::withMacros)),
            patches.values().stream().map(v -> v.within("patches", this::withPatches)),
            outlines.values().stream().map(v -> v.within("outlines", this::withOutlines)))
        .<TunedValue<RegionTuning>>flatMap(s -> s)
        .toList();
  }

  private RegionTuning withRing(RingTuning other) {
    return new RegionTuning(other, memories, macros, patches, outlines);
  }

  private RegionTuning withMemories(MemoryTuning other) {
    return new RegionTuning(ring, other, macros, patches, outlines);
  }

  private RegionTuning withMacros(MacroTuning other) {
    return new RegionTuning(ring, memories, other, patches, outlines);
  }

  private RegionTuning withPatches(PatchTuning other) {
    return new RegionTuning(ring, memories, macros, other, outlines);
  }

  private RegionTuning withOutlines(OutlineTuning other) {
    return new RegionTuning(ring, memories, macros, patches, other);
  }
}
