package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.BlockArea;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.estimates.DieEvidence;
import org.diesurvey.estimates.LogicBlock;
import org.diesurvey.estimates.MemoryBlock;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.estimates.TexturePeriod;
import org.diesurvey.measures.RegionMeasures;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Period;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * Adds bits, gates and plausible nodes to a survey. Works from the survey alone, so a survey can be
 * estimated again later, with another table or node.
 */
public final class SurveyEstimates {
  private SurveyEstimates() {}

  /** What a person knows of a memory region beyond its outline. */
  public record Knowledge(MemoryKind kind, OptionalInt ports) {
    static final Knowledge NONE = new Knowledge(MemoryKind.STATIC, OptionalInt.empty());
  }

  /**
   * The survey with estimates; unchanged if it has no scale.
   *
   * @param byHand whether a person drew the outlines
   * @param known by region id, what a person knows of memory regions
   * @throws org.diesurvey.DieInputException NODE_NOT_IN_TABLE
   */
  public static Survey add(
      Survey survey, DieEstimator estimator, boolean byHand, Map<String, Knowledge> known) {
    Optional<Calibration> scale = survey.scale().calibration();
    if (scale.isEmpty()) {
      return survey;
    }
    DieEstimates made = estimator.estimate(evidence(survey, scale.get(), byHand, known));
    List<Notice> notices = new ArrayList<>(survey.notices());
    made.notices().forEach(n -> notices.add(new Notice(n.id(), n.sentence(), n.remedy())));
    return survey.withNotices(notices).withEstimates(made);
  }

  private static DieEvidence evidence(
      Survey survey, Calibration scale, boolean byHand, Map<String, Knowledge> known) {
    double scaleRelative = scale.umPerPx().relativeUncertainty();
    List<MemoryBlock> memories = new ArrayList<>();
    List<LogicBlock> logic = new ArrayList<>();
    for (SurveyRegion r : survey.regions()) {
      Optional<MeasuredArea> mm2 = r.area().mm2().filter(a -> a.value() > 0);
      if (mm2.isEmpty()) {
        continue;
      }
      BlockArea area =
          new BlockArea(1e6 * mm2.get().value(), mm2.get().outline() / mm2.get().value());
      List<TexturePeriod> periods =
          r.periods().stream().map(p -> period(p, scaleRelative)).toList();
      if (r.dieClass() == DieClass.MEMORY_ARRAY) {
        Knowledge k = known.getOrDefault(r.id(), Knowledge.NONE);
        memories.add(
            new MemoryBlock(
                r.id(),
                area,
                arrays(r.inDie().map(RegionShape::bitCellArrays).orElse(List.of())),
                periods,
                k.kind(),
                k.ports()));
      } else if (r.dieClass() == DieClass.LOGIC) {
        logic.add(new LogicBlock(r.id(), area, periods));
      }
    }
    return new DieEvidence(
        memories,
        logic,
        scale.umPerPx().value() * survey.method().photoPxPerWorkingPx(),
        scaleRelative,
        survey.method().nodeNm(),
        byHand);
  }

  private static TexturePeriod period(Period p, double scaleRelative) {
    double all = p.lengthUm().relativeUncertainty();
    double own = Math.sqrt(Math.max(0, all * all - scaleRelative * scaleRelative));
    double length = p.lengthUm().value();
    return new TexturePeriod(
        new Measured(length, length * own), p.directionDeg() < 45, p.strength());
  }

  /** All arrays of a region together; sides of different arrays err independently. */
  private static Optional<BlockArea> arrays(List<Outline> outlines) {
    double um2 = 0;
    double square = 0;
    for (Outline o : outlines) {
      double area = ringArea(o.shell());
      double length = ringLength(o.shell());
      for (List<Point> hole : o.holes()) {
        area -= ringArea(hole);
        length += ringLength(hole);
      }
      um2 += area;
      square += Math.pow(length / 2 * RegionMeasures.edgeUm(DieClass.MEMORY_ARRAY), 2);
    }
    return um2 > 0 ? Optional.of(new BlockArea(um2, Math.sqrt(square) / um2)) : Optional.empty();
  }

  private static double ringArea(List<Point> ring) {
    double twice = 0;
    for (int i = 0; i < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get((i + 1) % ring.size());
      twice += p.x() * q.y() - q.x() * p.y();
    }
    return Math.abs(twice) / 2;
  }

  private static double ringLength(List<Point> ring) {
    double sum = 0;
    for (int i = 0; i < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get((i + 1) % ring.size());
      sum += Math.hypot(q.x() - p.x(), q.y() - p.y());
    }
    return sum;
  }
}
