package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.diesurvey.calibration.CalibrationEvidence.Axes;
import org.diesurvey.calibration.DivisionTolerance;

/** Sentences about a calibration that a person should read. */
final class CalibrationRemarks {
  /** Fewer lines than this say little about distortion. */
  private static final int LINES_FOR_BEND = 9;

  private CalibrationRemarks() {}

  static List<String> of(
      List<MicrometerReading> readings,
      DivisionTolerance tolerance,
      JoinedPitch joined,
      boolean differ) {
    List<String> out = new ArrayList<>();
    if (tolerance.relative() == 0) {
      out.add(
          "No tolerance of the divisions is stated, so they count as exact; take it from the"
              + " micrometer's certificate.");
    }
    for (MicrometerReading r : readings) {
      if (r.bend().significant()) {
        out.add(
            String.format(
                Locale.ROOT,
                "%s: the step changes by %.2f %% along the scale (lens distortion, or the"
                    + " micrometer is tilted).",
                r.photo(),
                100 * r.bend().relative()));
      } else if (r.linesUsed() < LINES_FOR_BEND) {
        out.add(
            String.format(
                Locale.ROOT,
                "%s: %d lines are too few to check the lens for distortion.",
                r.photo(),
                r.linesUsed()));
      }
      if (r.engraving().longerEvery().isEmpty()) {
        out.add(
            r.photo()
                + ": no regular longer lines were seen, so the count rests on the distances alone;"
                + " look at the picture of the lines.");
      }
      if (r.missing() > 0) {
        out.add(
            String.format(
                Locale.ROOT,
                "%s: %d of %d lines were not found or not measurable.",
                r.photo(),
                r.missing(),
                r.places()));
      }
    }
    if (differ) {
      out.add(
          String.format(
              Locale.ROOT,
              "The photographs differ by %.1f times what their uncertainties allow; the uncertainty"
                  + " was raised. Were focus, zoom and objective the same?",
              joined.birgeRatio()));
    }
    if (joined.axes().isPresent()) {
      out.add(axes(joined.axes().get()));
    } else {
      out.add(
          "Only one direction was measured; pixels are taken as square. A photograph with the"
              + " micrometer turned by 90 degrees would show it.");
    }
    return out;
  }

  private static String axes(Axes axes) {
    double a = axes.anisotropy().value();
    double u = axes.anisotropy().standardUncertainty();
    return String.format(
        Locale.ROOT,
        "The pitch along the rows is %s that along the columns by %.3f %% (standard uncertainty"
            + " %.3f %%)%s; the geometric mean of both is used, which makes areas right.",
        a >= 0 ? "above" : "below",
        100 * Math.abs(a),
        100 * u,
        Math.abs(a) > 2 * u ? "" : ", which may be chance");
  }
}
