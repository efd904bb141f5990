package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.CalibrationEvidence.Axes;
import org.diesurvey.quantity.Measured;

/**
 * One pitch from several readings.
 *
 * @param umPerPx weighted mean, um/px; where both axes are measured the geometric mean of their
 *     pitches, which makes areas right
 * @param axes pitch along both axes, if scales were seen along both
 * @param birgeRatio square root of chi square over its degrees of freedom; 1 for a single reading
 * @param differencesFreedom readings minus pitches fitted
 * @param sensitivities change of the pitch for a change of each reading's
 */
record JoinedPitch(
    double umPerPx,
    Optional<Axes> axes,
    double birgeRatio,
    int differencesFreedom,
    List<Double> sensitivities) {
  /** A scale within this angle of an axis speaks for that axis, degrees. */
  private static final double NEAR_AXIS_DEG = 35;

  static JoinedPitch of(List<MicrometerReading> readings) {
    int n = readings.size();
    double[] pitch = readings.stream().mapToDouble(MicrometerReading::umPerPx).toArray();
    double[] u =
        readings.stream().mapToDouble(r -> r.umPerPx() * ReadingUncertainty.relative(r)).toArray();
    boolean alongX =
        readings.stream().anyMatch(r -> Math.abs(r.rotationDeg().value()) < NEAR_AXIS_DEG);
    boolean alongY =
        readings.stream().anyMatch(r -> Math.abs(r.rotationDeg().value()) > 90 - NEAR_AXIS_DEG);
    boolean two = alongX && alongY;
    double[] share = new double[n];
    for (int i = 0; i < n; i++) {
      double c = Math.cos(Math.toRadians(readings.get(i).rotationDeg().value()));
      share[i] = two ? c * c : 1;
    }
    double[] fit = fit(pitch, u, share, two);
    double mean = mean(fit, two);
    List<Double> sensitivities = new ArrayList<>();
    double[] variances = new double[2];
    for (int i = 0; i < n; i++) {
      double[] moved = pitch.clone();
      double h = 1e-4 * pitch[i];
      moved[i] += h;
      double[] other = fit(moved, u, share, two);
      sensitivities.add((mean(other, two) - mean) / h);
      for (int a = 0; a < 2; a++) {
        double s = (1 / Math.sqrt(other[a]) - 1 / Math.sqrt(fit[a])) / h;
        variances[a] += s * s * u[i] * u[i];
      }
    }
    double chi = 0;
    for (int i = 0; i < n; i++) {
      double expected = 1 / Math.sqrt(share[i] * fit[0] + (1 - share[i]) * fit[1]);
      chi += Math.pow((pitch[i] - expected) / u[i], 2);
    }
    int freedom = n - (two ? 2 : 1);
    Optional<Axes> axes =
        two
            ? Optional.of(
                new Axes(
                    new Measured(1 / Math.sqrt(fit[0]), Math.sqrt(variances[0])),
                    new Measured(1 / Math.sqrt(fit[1]), Math.sqrt(variances[1]))))
            : Optional.empty();
    return new JoinedPitch(
        mean, axes, freedom > 0 ? Math.sqrt(chi / freedom) : 1, freedom, sensitivities);
  }

  private static double mean(double[] fit, boolean two) {
    return two ? Math.pow(fit[0] * fit[1], -0.25) : 1 / Math.sqrt(fit[0]);
  }

  /**
   * Least squares for a = 1 / px^2 and b = 1 / py^2: lines whose normal stands at the angle f to
   * the rows have the pitch p with 1 / p^2 = a cos^2 f + b sin^2 f.
   */
  private static double[] fit(double[] pitch, double[] u, double[] share, boolean two) {
    double[][] m = new double[2][3];
    for (int i = 0; i < pitch.length; i++) {
      double y = 1 / (pitch[i] * pitch[i]);
      double sigma = 2 * u[i] / (pitch[i] * pitch[i] * pitch[i]);
      // Scaled by the value, so that the equations are well conditioned for any pitch.
      double w = y * y / (sigma * sigma);
      double a = share[i];
      double b = 1 - share[i];
      m[0][0] += w * a * a;
      m[0][1] += w * a * b;
      m[1][1] += w * b * b;
      m[0][2] += w * a * y;
      m[1][2] += w * b * y;
    }
    if (!two) {
      double only = m[0][2] / m[0][0];
      return new double[] {only, only};
    }
    double det = m[0][0] * m[1][1] - m[0][1] * m[0][1];
    return new double[] {
      (m[0][2] * m[1][1] - m[1][2] * m[0][1]) / det, (m[1][2] * m[0][0] - m[0][2] * m[0][1]) / det
    };
  }
}
