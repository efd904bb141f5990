package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.diesurvey.Supported;
import org.diesurvey.calibration.CalibrationEvidence;
import org.diesurvey.calibration.CalibrationEvidence.PhotoLine;
import org.diesurvey.calibration.DivisionTolerance;
import org.diesurvey.quantity.Interval;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.Propagation;
import org.diesurvey.quantity.UncertaintyBudget;
import org.diesurvey.quantity.UncertaintyBudget.Component;

/**
 * Joins the readings of one micrometer under one objective to one pitch with its budget.
 *
 * <p>Readings are weighted by 1 / u^2. If they differ by more than their uncertainties allow (chi
 * square, probability below 5 %), the uncertainty grows by the ratio of Birge, Phys. Rev. 40 (1932)
 * 207 (reference from memory): sqrt(chi^2 / degrees of freedom). The tolerance of the division is
 * common to all readings and does not average out.
 *
 * @param umPerPx pitch with standard uncertainty, um/px
 * @param evidence budget, photographs and remarks
 */
@Supported
public record MicrometerCalibration(Measured umPerPx, CalibrationEvidence evidence) {
  private static final double COVERAGE = 0.95;
  private static final double DOUBTFUL = 0.05;

  /** Causes that each photograph has for itself; relative standard uncertainties. */
  private enum Cause {
    LINES(
        "scatter of the lines about equal steps",
        r -> r.step().px().standardUncertainty() / r.step().px().value()),
    PLACING("uneven light and sampling", ReadingUncertainty::placing),
    ROTATION("direction of the lines", ReadingUncertainty::rotation),
    DISTORTION("change of the step over the scale", ReadingUncertainty::distortion);

    private final String words;
    private final ToDoubleFunction<MicrometerReading> relative;

    Cause(String words, ToDoubleFunction<MicrometerReading> relative) {
      this.words = words;
      this.relative = relative;
    }

    double degreesOfFreedom(MicrometerReading r) {
      return this == LINES ? r.step().degreesOfFreedom() : Double.POSITIVE_INFINITY;
    }
  }

  /**
   * Joins readings.
   *
   * @param readings at least one, of one micrometer under one objective, camera and zoom
   * @param tolerance how exact the divisions are
   */
  public static MicrometerCalibration of(
      List<MicrometerReading> readings, DivisionTolerance tolerance) {
    JoinedPitch joined = JoinedPitch.of(readings);
    double pitch = joined.umPerPx();
    List<Component> budget = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      component(cause, readings, joined).ifPresent(budget::add);
    }
    double ratio = joined.birgeRatio();
    boolean differ = joined.differencesFreedom() > 0 && doubtful(joined);
    if (differ) {
      double inside =
          Propagation.independent(budget.stream().mapToDouble(Component::contribution).toArray());
      budget.add(
          new Component(
              "differences between the photographs",
              inside * Math.sqrt(Math.max(0, ratio * ratio - 1)),
              joined.differencesFreedom()));
    }
    joined
        .axes()
        .ifPresent(
            a ->
                budget.add(
                    new Component(
                        "difference of the two axes",
                        Propagation.rectangular(
                            0.5 * Math.abs(a.xUmPerPx().value() - a.yUmPerPx().value())),
                        Double.POSITIVE_INFINITY)));
    budget.add(
        new Component(
            "length of the division",
            pitch * tolerance.standardRelative(),
            Double.POSITIVE_INFINITY));
    UncertaintyBudget all = new UncertaintyBudget(budget);
    double u = all.combined();
    double expanded = all.expanded(COVERAGE);
    double freedom = all.effectiveDegreesOfFreedom();
    return new MicrometerCalibration(
        new Measured(pitch, u),
        new CalibrationEvidence(
            new Interval(pitch - expanded, pitch + expanded),
            freedom < 1e5 ? OptionalDouble.of(freedom) : OptionalDouble.empty(),
            OptionalDouble.of(readings.get(0).engraving().divisionUm()),
            Optional.of(words(tolerance)),
            false,
            budget,
            readings.stream().map(MicrometerCalibration::line).toList(),
            joined.axes(),
            joined.differencesFreedom() > 0 ? OptionalDouble.of(ratio) : OptionalDouble.empty(),
            CalibrationRemarks.of(readings, tolerance, joined, differ)));
  }

  private static boolean doubtful(JoinedPitch joined) {
    double chi = joined.birgeRatio() * joined.birgeRatio() * joined.differencesFreedom();
    return 1
            - new ChiSquaredDistribution(null, joined.differencesFreedom())
                .cumulativeProbability(chi)
        < DOUBTFUL;
  }

  private static Optional<Component> component(
      Cause cause, List<MicrometerReading> readings, JoinedPitch joined) {
    double squares = 0;
    double fourths = 0;
    for (int i = 0; i < readings.size(); i++) {
      MicrometerReading r = readings.get(i);
      double c = joined.sensitivities().get(i) * r.umPerPx() * cause.relative.applyAsDouble(r);
      squares += c * c;
      fourths += c * c * c * c / cause.degreesOfFreedom(r);
    }
    double freedom = fourths > 0 ? squares * squares / fourths : Double.POSITIVE_INFINITY;
    boolean absent = cause == Cause.DISTORTION && squares == 0;
    return absent
        ? Optional.empty()
        : Optional.of(new Component(cause.words, Math.sqrt(squares), freedom));
  }

  private static PhotoLine line(MicrometerReading r) {
    return new PhotoLine(
        r.photo(),
        r.sha256(),
        new Measured(r.umPerPx(), r.umPerPx() * ReadingUncertainty.relative(r)),
        r.linesUsed(),
        r.rotationDeg().value(),
        r.step().scatterPx());
  }

  private static String words(DivisionTolerance t) {
    return t.relative() == 0
        ? "not stated, taken as exact"
        : String.format(
            Locale.ROOT, "%.4g %% of a division, %s", 100 * t.relative(), t.distribution().word());
  }
}
