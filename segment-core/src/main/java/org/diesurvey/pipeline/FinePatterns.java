package org.diesurvey.pipeline;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.TexturePeriod;
import org.diesurvey.inspection.Resolution;
import org.diesurvey.inspection.ResolutionMeter;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.survey.FinePattern;
import org.diesurvey.survey.FinePattern.Verdict;
import org.diesurvey.survey.Period;

/** Says of memories and logic whether their cells and rows can be read from the photograph. */
final class FinePatterns {
  /** Side of the windows whose spectrum is taken, px. */
  private static final int WINDOW_PX = 128;

  /** Windows along each side of the die. */
  private static final int ACROSS = 5;

  /** Two rows of the coarsest libraries in the density table, rounded up, um. */
  private static final double LONGEST_ROWS_UM = 26;

  private final Resolution resolution;
  private final Optional<Calibration> calibration;

  FinePatterns(Resolution resolution, Optional<Calibration> calibration) {
    this.resolution = resolution;
    this.calibration = calibration;
  }

  /** Looks at windows spread over the die. */
  static FinePatterns of(DiePhoto photo, PreparedDie die, Optional<Calibration> calibration) {
    List<Optional<GrayRaster>> windows =
        IntStream.range(0, ACROSS * ACROSS)
            .parallel()
            .mapToObj(
                i -> window(photo, die, (i % ACROSS + 0.5) / ACROSS, (i / ACROSS + 0.5) / ACROSS))
            .toList();
    ResolutionMeter meter = new ResolutionMeter(WINDOW_PX);
    windows.stream().flatMap(Optional::stream).forEach(meter::add);
    double level = photo.info().bitsPerSample() > 8 ? 1 / 65535.0 : 1 / 255.0;
    return new FinePatterns(meter.resolution(level), calibration);
  }

  private static Optional<GrayRaster> window(
      DiePhoto photo, PreparedDie die, double across, double down) {
    List<PixelPoint> c = die.corners();
    double x = between(c.get(0).x(), c.get(1).x(), c.get(3).x(), c.get(2).x(), across, down);
    double y = between(c.get(0).y(), c.get(1).y(), c.get(3).y(), c.get(2).y(), across, down);
    int left = (int) Math.round(x) - WINDOW_PX / 2;
    int upper = (int) Math.round(y) - WINDOW_PX / 2;
    if (left < 0
        || upper < 0
        || left + WINDOW_PX > photo.pixels().width()
        || upper + WINDOW_PX > photo.pixels().height()) {
      return Optional.empty();
    }
    GrayRaster raster = new GrayRaster(WINDOW_PX, WINDOW_PX);
    photo.pixels().readGray(new PixelRect(left, upper, WINDOW_PX, WINDOW_PX), raster.array());
    return Optional.of(raster);
  }

  private static double between(
      double ul, double ur, double ll, double lr, double across, double down) {
    double upper = ul + across * (ur - ul);
    double lower = ll + across * (lr - ll);
    return upper + down * (lower - upper);
  }

  /**
   * The verdict on a region; empty for classes without such a pattern.
   *
   * @param periods of the region, um or without a scale px
   */
  Optional<FinePattern> of(DieClass dieClass, List<Period> periods) {
    if (dieClass != DieClass.MEMORY_ARRAY && dieClass != DieClass.LOGIC) {
      return Optional.empty();
    }
    boolean memory = dieClass == DieClass.MEMORY_ARRAY;
    double longest = memory ? TexturePeriod.LONGEST_OF_CELLS_UM : LONGEST_ROWS_UM;
    double strength = memory ? TexturePeriod.LEAST_OF_CELLS : TexturePeriod.LEAST_OF_ROWS;
    long firm =
        periods.stream()
            .filter(p -> p.strength() >= strength)
            .filter(p -> calibration.isEmpty() || p.lengthUm().value() <= longest)
            .count();
    Verdict verdict =
        firm >= (memory ? 2 : 1)
            ? Verdict.RESOLVED
            : firm == 1
                ? Verdict.ONE_DIRECTION
                : resolution.atSamplingLimit() ? Verdict.ALIASED : Verdict.NOT_RESOLVABLE;
    double px = resolution.finestPeriodPx();
    return Optional.of(
        new FinePattern(
            verdict,
            calibration
                .map(k -> OptionalDouble.of(px * k.umPerPx().value()))
                .orElse(OptionalDouble.empty()),
            px));
  }
}
