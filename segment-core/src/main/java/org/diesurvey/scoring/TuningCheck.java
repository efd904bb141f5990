package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.diesurvey.TunedValue;
import org.diesurvey.classification.DieClass;
import org.diesurvey.pipeline.RetunedSurveys;
import org.diesurvey.pipeline.Tuning;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/**
 * Surveys dies of known truth with each value of the tuning a fifth less and a fifth more, the
 * others as they stand, and keeps what changed.
 */
public final class TuningCheck {
  private static final double LESS = 0.8;
  private static final double MORE = 1.2;

  /** Values that count only where no scale is known, or in magnified pictures. */
  private static final String WITHOUT_SCALE = "lattice.";

  private final Map<String, Effects> effects = new LinkedHashMap<>();

  /** One value over the dies so far. */
  private static final class Effects {
    private final List<OptionalDouble> less = new ArrayList<>();
    private final List<OptionalDouble> now = new ArrayList<>();
    private final List<OptionalDouble> more = new ArrayList<>();
    private double sharePoints;
    private int diesChanged;
  }

  /** A survey with its overlap. */
  private record Scored(Survey survey, OptionalDouble iou) {
    static Scored of(Survey survey, Function<Survey, OptionalDouble> iou) {
      return new Scored(survey, iou.apply(survey));
    }

    /** Nothing is scored twice. */
    Scored changed(Survey other, Function<Survey, OptionalDouble> score) {
      return other.regions().equals(survey.regions()) ? this : of(other, score);
    }

    double largestShareChange(Scored other) {
      Map<DieClass, Double> own = shares(survey);
      Map<DieClass, Double> others = shares(other.survey);
      double most = 0;
      for (DieClass c : DieClass.values()) {
        most = Math.max(most, Math.abs(own.getOrDefault(c, 0.0) - others.getOrDefault(c, 0.0)));
      }
      return 100 * most;
    }

    private static Map<DieClass, Double> shares(Survey survey) {
      Map<DieClass, Double> out = new java.util.EnumMap<>(DieClass.class);
      for (ClassTotal t : survey.totals()) {
        out.merge(t.dieClass(), t.shareOfDie(), Double::sum);
      }
      return out;
    }
  }

  /**
   * Surveys one die with every value.
   *
   * @param known its photograph with the scale
   * @param unknown the same without one
   * @param iou mean IoU of a survey of this die; empty if the truth holds no class
   */
  public void die(
      RetunedSurveys known, RetunedSurveys unknown, Function<Survey, OptionalDouble> iou) {
    Scored nowKnown = Scored.of(known.survey(Tuning.DEFAULT), iou);
    Scored nowUnknown = Scored.of(unknown.survey(Tuning.DEFAULT), iou);
    for (TunedValue<Tuning> v : Tuning.DEFAULT.values()) {
      boolean blind = v.name().startsWith(WITHOUT_SCALE);
      RetunedSurveys surveys = blind ? unknown : known;
      Scored now = blind ? nowUnknown : nowKnown;
      Scored less = now.changed(surveys.survey(v.times(LESS)), iou);
      Scored more = now.changed(surveys.survey(v.times(MORE)), iou);
      Effects e = effects.computeIfAbsent(v.name(), n -> new Effects());
      e.less.add(less.iou);
      e.now.add(now.iou);
      e.more.add(more.iou);
      e.sharePoints =
          Math.max(
              e.sharePoints, Math.max(now.largestShareChange(less), now.largestShareChange(more)));
      e.diesChanged += less == now && more == now ? 0 : 1;
    }
  }

  /** What hangs on each value, in the order of the stages; none before the first die. */
  public List<TuningEffect> effects() {
    return Tuning.DEFAULT.values().stream()
        .filter(v -> effects.containsKey(v.name()))
        .map(v -> effect(v, effects.get(v.name())))
        .toList();
  }

  private static TuningEffect effect(TunedValue<Tuning> v, Effects e) {
    return new TuningEffect(
        v.name(),
        v.unit(),
        v.value(),
        v.chosenOn(),
        mean(e.less),
        mean(e.now),
        mean(e.more),
        e.sharePoints,
        e.diesChanged);
  }

  private static OptionalDouble mean(List<OptionalDouble> all) {
    return all.stream().flatMapToDouble(OptionalDouble::stream).average();
  }
}
