package org.diesurvey.report.table;

import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.Estimate;
import org.diesurvey.estimates.RegionEstimate;
import org.diesurvey.quantity.Measured;
import org.diesurvey.report.text.Quantities;
import org.diesurvey.survey.BondPadCount;
import org.diesurvey.survey.MemoryParts;
import org.diesurvey.survey.PadCounting;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** The table of regions, one line a region; units stand in the column names. */
public final class RegionCsv {
  private static final List<DieClass> ON_DIE =
      List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING);

  private RegionCsv() {}

  public static String text(Survey survey) {
    CsvTable table = new CsvTable();
    table.header(
        "photo",
        "id",
        "class",
        "reason",
        "area_mm2",
        "standard_uncertainty_area_mm2",
        "area_px",
        "share_of_die",
        "confidence",
        "probability_memory_array",
        "probability_hard_macro",
        "probability_logic",
        "probability_pad_ring",
        "x_min_um",
        "y_min_um",
        "x_max_um",
        "y_max_um",
        "period_1_um",
        "standard_uncertainty_period_1_um",
        "period_1_px",
        "period_1_direction_deg",
        "period_2_um",
        "standard_uncertainty_period_2_um",
        "period_2_px",
        "period_2_direction_deg",
        "fine_pattern",
        "bit_cell_arrays",
        "array_area_mm2",
        "standard_uncertainty_array_area_mm2",
        "periphery_area_mm2",
        "standard_uncertainty_periphery_area_mm2",
        "bond_pads",
        "standard_uncertainty_bond_pads",
        "bond_pads_counted_as",
        "bond_pad_pitch_um",
        "neighbours",
        "bits",
        "bits_low",
        "bits_high",
        "nand2_equivalents",
        "nand2_equivalents_low",
        "nand2_equivalents_high",
        "estimate_origin");
    boolean scaled = survey.scale().calibration().isPresent();
    for (SurveyRegion r : survey.regions()) {
      table.text(survey.photo().fileName()).text(r.id()).text(r.dieClass().label());
      table.text(r.verdict().reason().map(UnclearReason::label).orElse(""));
      table.number(value(r.areaMm2(), 6)).number(uncertainty(r.areaMm2()));
      table
          .number(Quantities.fixed(r.area().px2(), 2))
          .number(Quantities.fixed(r.area().shareOfDie(), 6));
      table.number(Quantities.fixed(r.confidence(), 4));
      for (DieClass c : ON_DIE) {
        Double p = r.verdict().probabilities().get(c);
        table.number(p == null ? "" : Quantities.fixed(p, 4));
      }
      box(table, r);
      period(table, r, 0, scaled);
      period(table, r, 1, scaled);
      table.text(r.finePattern().map(f -> f.verdict().label()).orElse(""));
      table.number(
          r.dieClass() == DieClass.MEMORY_ARRAY
              ? Integer.toString(r.inPhoto().bitCellArrays().size())
              : "");
      Optional<Measured> arrays = r.area().memoryParts().map(MemoryParts::arrayMm2);
      Optional<Measured> periphery = r.area().memoryParts().map(MemoryParts::peripheryMm2);
      table.number(value(arrays, 6)).number(uncertainty(arrays));
      table.number(value(periphery, 6)).number(uncertainty(periphery));
      table.number(r.bondPads().map(b -> Integer.toString(b.pads())).orElse(""));
      Optional<PadCounting> counting = r.bondPads().flatMap(BondPadCount::counting);
      table.number(counting.map(c -> Quantities.fixed(c.standardUncertainty(), 1)).orElse(""));
      table.text(counting.map(PadCounting::countedAs).orElse(""));
      table.number(
          counting.isPresent() && counting.get().pitchUm().isPresent()
              ? Quantities.fixed(counting.get().pitchUm().getAsDouble(), 1)
              : "");
      table.text(String.join(" ", r.neighbours()));
      estimate(table, survey, r);
      table.end();
    }
    return table.toString();
  }

  /** Median and ends of the 95 % interval, to three digits, and what they rest on. */
  private static void estimate(CsvTable table, Survey survey, SurveyRegion r) {
    Optional<RegionEstimate> found =
        survey.estimates().stream()
            .flatMap(e -> e.regions().stream())
            .filter(e -> e.id().equals(r.id()))
            .findFirst();
    for (AmountKind kind : List.of(AmountKind.BITS, AmountKind.NAND2)) {
      Optional<Estimate> e = found.filter(f -> f.kind() == kind).map(RegionEstimate::amount);
      table.number(amount(e.map(Estimate::value)));
      table.number(amount(e.map(Estimate::low))).number(amount(e.map(Estimate::high)));
    }
    table.text(found.map(RegionEstimate::origin).orElse(""));
  }

  private static String amount(Optional<Double> v) {
    return v.map(d -> Quantities.significant(d, 3)).orElse("");
  }

  private static void box(CsvTable table, SurveyRegion r) {
    List<Point> shell = r.inDie().map(o -> o.outline().shell()).orElse(List.of());
    table.number(least(shell, Point::x, 1)).number(least(shell, Point::y, 1));
    table.number(least(shell, Point::x, -1)).number(least(shell, Point::y, -1));
  }

  /** The smallest coordinate, or the largest with sign -1; empty without corners. */
  private static String least(List<Point> ring, ToDoubleFunction<Point> of, int sign) {
    return ring.isEmpty()
        ? ""
        : Quantities.fixed(
            sign * ring.stream().mapToDouble(p -> sign * of.applyAsDouble(p)).min().getAsDouble(),
            2);
  }

  private static void period(CsvTable table, SurveyRegion r, int index, boolean scaled) {
    Optional<Period> period =
        index < r.periods().size() ? Optional.of(r.periods().get(index)) : Optional.empty();
    Optional<Measured> length = period.map(Period::lengthUm);
    Optional<Measured> um = length.filter(m -> scaled);
    table.number(value(um, 6)).number(uncertainty(um));
    table.number(value(length.filter(m -> !scaled), 6));
    table.number(period.map(p -> Quantities.fixed(p.directionDeg(), 2)).orElse(""));
  }

  private static String value(Optional<Measured> m, int digits) {
    return m.map(v -> Quantities.significant(v.value(), digits)).orElse("");
  }

  private static String uncertainty(Optional<Measured> m) {
    return m.map(v -> Quantities.significant(v.standardUncertainty(), 3)).orElse("");
  }
}
