package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.diesurvey.TunedValue;
import org.diesurvey.features.damage.DamageTuning;
import org.diesurvey.preparation.edges.EdgeTuning;
import org.diesurvey.regions.RegionTuning;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.SevereNotice;

/**
 * The values of all stages that decide most of a survey. A survey made with other values than
 * {@link #DEFAULT} says so in a notice.
 *
 * @param edges which straight edges are those of the die
 * @param damage what is hidden
 * @param lattice what a plain lattice counts
 * @param regions classes and outlines of regions
 * @param familiarity which pictures are in doubt as a whole
 */
public record Tuning(
    EdgeTuning edges,
    DamageTuning damage,
    LatticeTuning lattice,
    RegionTuning regions,
    FamiliarityTuning familiarity) {
  /** The values of ordinary surveys. */
  public static final Tuning DEFAULT =
      new Tuning(
          EdgeTuning.DEFAULT,
          DamageTuning.DEFAULT,
          LatticeTuning.DEFAULT,
          RegionTuning.DEFAULT,
          FamiliarityTuning.DEFAULT);

  /** All of them in the order of the stages, each with what it was chosen on. */
  public List<TunedValue<Tuning>> values() {
    return Stream.of(
            edges.values().stream().map(v -> v.within("edges", this::withEdges)),
            damage.values().stream().map(v -> v.within("damage", this::withDamage)),
            lattice.values().stream().map(v -> v.within("lattice", this::withLattice)),
            regions.values().stream().map(v -> v.within("regions", this::withRegions)),
            familiarity.values().stream().map(v -> v.within("familiarity", this::withFamiliarity)))
        .<TunedValue<Tuning>>flatMap(s -> s)
        .toList();
  }

  /** What differs from the ordinary values, as "name value" by commas; empty if nothing does. */
  String differences() {
    List<String> out = new ArrayList<>();
    List<TunedValue<Tuning>> ordinary = DEFAULT.values();
    List<TunedValue<Tuning>> own = values();
    for (int i = 0; i < own.size(); i++) {
      if (own.get(i).value() != ordinary.get(i).value()) {
        out.add(own.get(i).name() + " " + own.get(i).value());
      }
    }
    return String.join(", ", out);
  }

  /** What a reader of a survey must know; nothing of an ordinary one. */
  List<Notice> notices() {
    if (equals(DEFAULT)) {
      return List.of();
    }
    return List.of(
        SevereNotice.OTHER_TUNING.says(
            "The survey was made with other values than the ordinary ones: " + differences() + ".",
            "Use it to see what hangs on these values; survey again without them for results."));
  }

  private Tuning withEdges(EdgeTuning other) {
    return new Tuning(other, damage, lattice, regions, familiarity);
  }

  private Tuning withDamage(DamageTuning other) {
    return new Tuning(edges, other, lattice, regions, familiarity);
  }

  private Tuning withLattice(LatticeTuning other) {
    return new Tuning(edges, damage, other, regions, familiarity);
  }

  private Tuning withRegions(RegionTuning other) {
    return new Tuning(edges, damage, lattice, other, familiarity);
  }

  private Tuning withFamiliarity(FamiliarityTuning other) {
    return new Tuning(edges, damage, lattice, regions, other);
  }
}
