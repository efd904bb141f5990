package org.diesurvey.comparison.changes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.ComparedDie;
import org.diesurvey.comparison.document.EstimateShift;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.comparison.document.QuantityShift;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/** Figures of the two surveys side by side. */
public final class Totals {
  private Totals() {}

  public static ComparedDie die(Survey s) {
    return new ComparedDie(
        s.photo().fileName(),
        s.photo().sha256(),
        s.preparation().dieNumber(),
        s.method().software().model(),
        s.method().software().modelSha256(),
        s.scale().calibration(),
        s.die().widthMm(),
        s.die().heightMm(),
        s.die().edgeFound(),
        s.die().rotationDeg());
  }

  /**
   * Class totals, and the die's sides along the axes of the first die.
   *
   * @param ratio by which lengths of the second die are divided: both are then on the first scale
   */
  public static List<QuantityShift> totals(Survey a, Survey b, Orientation o, double ratio) {
    List<QuantityShift> out = new ArrayList<>();
    Optional<Measured> width = o.swapsSides() ? b.die().heightMm() : b.die().widthMm();
    Optional<Measured> height = o.swapsSides() ? b.die().widthMm() : b.die().heightMm();
    boolean scaled = a.scale().calibration().isPresent() && b.scale().calibration().isPresent();
    if (scaled) {
      out.add(shift("die width", "mm", a.die().widthMm(), width.map(m -> m.times(1 / ratio))));
      out.add(shift("die height", "mm", a.die().heightMm(), height.map(m -> m.times(1 / ratio))));
    }
    for (DieClass c : DieClass.values()) {
      if (c == DieClass.OFF_DIE) {
        continue;
      }
      if (scaled) {
        out.add(
            shift(c.label(), "mm2", area(a, c), area(b, c).map(m -> m.times(1 / (ratio * ratio)))));
      } else {
        out.add(shift(c.label(), "share", Optional.of(share(a, c)), Optional.of(share(b, c))));
      }
    }
    return out;
  }

  /** All rows of a class; unclear areas have one for each reason. */
  private static Optional<Measured> area(Survey s, DieClass c) {
    return s.totals().stream()
        .filter(t -> t.dieClass() == c)
        .flatMap(t -> t.mm2().stream())
        .reduce(MeasuredArea::plus)
        .map(MeasuredArea::joined);
  }

  private static Measured share(Survey s, DieClass c) {
    return Measured.exact(
        s.totals().stream()
            .filter(t -> t.dieClass() == c)
            .mapToDouble(ClassTotal::shareOfDie)
            .sum());
  }

  private static QuantityShift shift(
      String name, String unit, Optional<Measured> a, Optional<Measured> b) {
    Optional<Measured> difference =
        a.isPresent() && b.isPresent() ? Optional.of(b.get().minus(a.get())) : Optional.empty();
    return new QuantityShift(name, unit, a, b, difference);
  }

  public static List<EstimateShift> estimates(Survey a, Survey b) {
    List<EstimateShift> out = new ArrayList<>();
    for (AmountKind kind : AmountKind.values()) {
      Optional<EstimateShift.Span> first = span(a, kind);
      Optional<EstimateShift.Span> second = span(b, kind);
      if (first.isPresent() || second.isPresent()) {
        out.add(new EstimateShift(kind.label(), unit(kind), first, second));
      }
    }
    return out;
  }

  private static String unit(AmountKind kind) {
    return switch (kind) {
      case BITS -> "bit";
      case NAND2 -> "NAND2 equivalents";
      case TRANSISTORS -> "transistors";
    };
  }

  private static Optional<EstimateShift.Span> span(Survey s, AmountKind kind) {
    return s.estimates().stream()
        .flatMap(e -> e.totals().stream())
        .filter(t -> t.kind() == kind)
        .map(DieTotal::amount)
        .map(e -> new EstimateShift.Span(e.low(), e.value(), e.high()))
        .findFirst();
  }
}
