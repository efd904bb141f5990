package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.DieTotal;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.RegionArea;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/** Takes estimates and areas out of surveys, for comparison with truth. */
public final class EstimateCases {
  private EstimateCases() {}

  /** The totals of a survey whose true amount is known and not 0. */
  public static List<EstimateCase> of(
      String die, EstimateCase.Basis basis, TrueOutlines truth, Survey survey) {
    List<EstimateCase> cases = new ArrayList<>();
    if (survey.estimates().isEmpty()) {
      return cases;
    }
    for (DieTotal t : survey.estimates().get().totals()) {
      double amount =
          t.kind() == AmountKind.BITS
              ? truth.bits()
              : t.kind() == AmountKind.NAND2 ? truth.nand2() : 0;
      if (amount > 0) {
        cases.add(new EstimateCase(die, basis, t.kind(), amount, t.amount()));
      }
    }
    return cases;
  }

  /** The survey as if nobody knew the bit-cell arrays inside its memories. */
  public static Survey withoutArrays(Survey s) {
    List<SurveyRegion> regions = new ArrayList<>();
    for (SurveyRegion r : s.regions()) {
      regions.add(
          new SurveyRegion(
              r.id(),
              r.verdict(),
              RegionShape.of(r.inPhoto().outline()),
              r.inDie().map(o -> RegionShape.of(o.outline())),
              new RegionArea(
                  r.area().px2(), r.area().mm2(), r.area().shareOfDie(), Optional.empty()),
              r.periods(),
              r.finePattern(),
              r.neighbours(),
              r.bondPads()));
    }
    return new Survey(
        s.photo(),
        s.method(),
        s.scale(),
        s.die(),
        s.preparation(),
        regions,
        s.totals(),
        s.notices(),
        Optional.empty());
  }

  /** Total area of a class, um2; 0 without a scale. */
  public static double areaUm2(Survey survey, DieClass c) {
    return survey.regions().stream()
        .filter(r -> r.dieClass() == c)
        .mapToDouble(r -> r.areaMm2().map(a -> 1e6 * a.value()).orElse(0.0))
        .sum();
  }

  /** Confidence of the regions of a class, weighted by their areas; 0 if there are none. */
  public static double confidence(Survey survey, DieClass c) {
    double sum = 0;
    for (SurveyRegion r : survey.regions()) {
      sum += r.dieClass() == c ? r.confidence() * r.area().px2() : 0;
    }
    double area =
        survey.regions().stream()
            .filter(r -> r.dieClass() == c)
            .mapToDouble(r -> r.area().px2())
            .sum();
    return area > 0 ? sum / area : 0;
  }

  /** Total area of the bit-cell arrays of all memories that have some, um2. */
  public static double arraysUm2(Survey survey) {
    double sum = 0;
    for (SurveyRegion r : survey.regions()) {
      for (Outline o : r.inDie().map(RegionShape::bitCellArrays).orElse(List.of())) {
        sum += area(o.shell()) - o.holes().stream().mapToDouble(EstimateCases::area).sum();
      }
    }
    return sum;
  }

  private static double area(List<Point> ring) {
    double twice = 0;
    for (int i = 0; i < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get((i + 1) % ring.size());
      twice += p.x() * q.y() - q.x() * p.y();
    }
    return Math.abs(twice) / 2;
  }

  /** Periods found beside the true cells, one line. */
  public static String evidence(String die, TrueOutlines truth, Survey survey) {
    StringBuilder s =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "%s: %.3g um/px, node %.0f, cells %s, found",
                die,
                truth.umPerPx(),
                truth.nodeNm().orElse(0),
                truth.cells()));
    for (SurveyRegion r : survey.regions()) {
      s.append(' ').append(r.id());
      for (Period p : r.periods()) {
        s.append(
            String.format(
                Locale.ROOT,
                " %.3g@%.0f(%.2f)",
                p.lengthUm().value(),
                p.directionDeg(),
                p.strength()));
      }
    }
    return s.toString();
  }
}
