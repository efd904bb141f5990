package org.diesurvey.survey.json;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.ClassVerdict;
import org.diesurvey.survey.FinePattern;
import org.diesurvey.survey.MemoryParts;
import org.diesurvey.survey.PadCounting;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.SurveyRegion;

/** Reads the regions of a survey document. */
final class RegionJsonReader {
  private static final String UNCERTAIN = "standard_uncertainty_";

  private final ScaleRecord scale;

  /**
   * @param scale of the survey
   */
  RegionJsonReader(ScaleRecord scale) {
    this.scale = scale;
  }

  /** Reads one member of the list of regions. */
  SurveyRegion region(JsonMember m) {
    m.onlyMembers(
        Set.of(
            "id",
            "class",
            "reason",
            "area_mm2",
            "standard_uncertainty_area_mm2",
            "area_px",
            "share_of_die",
            "confidence",
            "probabilities",
            "periods",
            "fine_pattern",
            "bond_pads",
            "standard_uncertainty_bond_pads",
            "bond_pads_counted_as",
            "bond_pad_pitch_um",
            "array_area_mm2",
            "standard_uncertainty_array_area_mm2",
            "periphery_area_mm2",
            "standard_uncertainty_periphery_area_mm2",
            "neighbours",
            "outline_px",
            "outline_um",
            "bit_cell_arrays_px",
            "bit_cell_arrays_um"));
    return new SurveyRegion(
        m.member("id").name(),
        new ClassVerdict(
            SurveyJsonReader.dieClass(m.member("class")),
            m.optional("reason").map(SurveyJsonReader::reason),
            m.member("confidence").share(),
            probabilities(m.member("probabilities"))),
        shape(m.member("outline_px"), m.member("bit_cell_arrays_px")),
        shapeUm(m),
        new RegionArea(
            m.member("area_px").amount(),
            SurveyJsonReader.areaMm2(m, scale),
            m.member("share_of_die").share(),
            memoryParts(m)),
        m.member("periods").list(this::period),
        m.optional("fine_pattern").map(RegionJsonReader::finePattern),
        m.member("neighbours").list(JsonMember::text),
        bondPads(m));
  }

  private static RegionShape shape(JsonMember outline, JsonMember arrays) {
    return new RegionShape(
        SurveyJsonReader.outline(outline), arrays.list(SurveyJsonReader::outline));
  }

  /** Arrays without the outline that they lie in would have nowhere to go. */
  private static Optional<RegionShape> shapeUm(JsonMember m) {
    JsonMember arrays = m.member("bit_cell_arrays_um");
    return m.optional("outline_um").isEmpty() && arrays.list(a -> a).isEmpty()
        ? Optional.empty()
        : Optional.of(shape(m.member("outline_um"), arrays));
  }

  private static Optional<BondPadCount> bondPads(JsonMember m) {
    Optional<PadCounting> counting = padCounting(m);
    return m.optional("bond_pads")
        .map(b -> new BondPadCount((int) b.whole(0, Integer.MAX_VALUE), counting));
  }

  private static Optional<MemoryParts> memoryParts(JsonMember m) {
    return anyOf(m, "array_area_mm2", "periphery_area_mm2")
            || anyOf(m, UNCERTAIN + "array_area_mm2", UNCERTAIN + "periphery_area_mm2")
        ? Optional.of(
            new MemoryParts(
                SurveyJsonReader.measured(m, "array_area_mm2"),
                SurveyJsonReader.measured(m, "periphery_area_mm2")))
        : Optional.empty();
  }

  private static boolean anyOf(JsonMember m, String... names) {
    return Arrays.stream(names).anyMatch(n -> m.optional(n).isPresent());
  }

  private static Optional<PadCounting> padCounting(JsonMember m) {
    if (!anyOf(m, "bond_pads_counted_as", UNCERTAIN + "bond_pads", "bond_pad_pitch_um")) {
      return Optional.empty();
    }
    m.member("bond_pads");
    JsonMember as = m.member("bond_pads_counted_as");
    boolean pads = as.text().equals("pads");
    if (!pads && !as.text().equals("I/O cells")) {
      throw as.refused("\"pads\" or \"I/O cells\" was expected");
    }
    return Optional.of(
        new PadCounting(
            pads,
            m.member(UNCERTAIN + "bond_pads").amount(),
            m.optional("bond_pad_pitch_um")
                .map(p -> OptionalDouble.of(p.amount()))
                .orElse(OptionalDouble.empty())));
  }

  private static Map<DieClass, Double> probabilities(JsonMember m) {
    Map<DieClass, Double> all = new EnumMap<>(DieClass.class);
    m.onlyMembers(Set.of("memory_array", "hard_macro", "logic", "pad_ring"));
    for (SurveyMembers.ClassMember c : SurveyMembers.ON_DIE) {
      m.optional(c.name()).ifPresent(p -> all.put(c.dieClass(), p.share()));
    }
    return all;
  }

  private Period period(JsonMember m) {
    String length = scale.calibration().isPresent() ? "length_um" : "length_px";
    m.onlyMembers(Set.of(length, "standard_uncertainty_" + length, "direction_deg", "strength"));
    return new Period(
        SurveyJsonReader.measured(m, length),
        m.member("direction_deg").number(0, 180),
        m.member("strength").share());
  }

  private static FinePattern finePattern(JsonMember m) {
    m.onlyMembers(Set.of("verdict", "finest_period_um", "finest_period_px"));
    String label = m.member("verdict").text();
    for (FinePattern.Verdict v : FinePattern.Verdict.values()) {
      if (v.label().equals(label)) {
        return new FinePattern(
            v,
            m.optional("finest_period_um")
                .map(f -> OptionalDouble.of(f.amount()))
                .orElse(OptionalDouble.empty()),
            m.member("finest_period_px").amount());
      }
    }
    throw m.member("verdict").refused("\"" + label + "\" is no verdict");
  }
}
