package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.micrometer.LineCentres.Centre;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.quantity.Measured;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.ImageFilters;

/**
 * Reads a photograph of a stage micrometer: parallel engraved lines at equal distances, in any
 * rotation, on bright or dark ground.
 *
 * <p>The direction of the lines follows from a vote of all gradients; in the picture turned upright
 * dark strokes are found strip by strip; the most regular row of them is numbered; each line's
 * centre is fitted; a straight line through the centres gives the step, measured at right angles to
 * the lines. What could be counted in two ways is refused.
 */
public final class MicrometerFinder {
  /** Fewest division lines for a scale. */
  public static final int FEWEST_LINES = 5;

  /** Largest photograph, pixels: one camera frame, held in memory as a whole. */
  private static final long MOST_PIXELS = 100_000_000;

  private MicrometerFinder() {}

  /**
   * Reads one photograph.
   *
   * @param pixels the photograph
   * @param photo its name for messages
   * @param settings what the user knows of the scale
   * @throws DieInputException MICROMETER_UNUSABLE, with one sentence that says why
   */
  public static MicrometerReading read(PixelSource pixels, String photo, ScaleFacts settings) {
    Refusal refusal = new Refusal(photo);
    long size = (long) pixels.width() * pixels.height();
    if (size > MOST_PIXELS) {
      throw new DieInputException(
          Reason.PHOTO_TOO_LARGE,
          photo
              + ": a micrometer photograph is one camera frame of at most 100 megapixels, this has "
              + size / 1_000_000
              + "; use a single frame.");
    }
    float[] values = new float[(int) size];
    pixels.readGray(new PixelRect(0, 0, pixels.width(), pixels.height()), values);
    GrayRaster grey = GrayRaster.over(pixels.width(), pixels.height(), values);
    ScaleChecks.exposure(grey, refusal);
    GrayRaster smooth = ImageFilters.gaussian(grey, 1.0);
    List<Candidate> candidates = candidates(grey, smooth);
    Candidate rough = best(candidates, refusal);
    Candidate fine = rough.refined(grey);
    if (fine.lattice().marks().size() < 3) {
      throw refusal.noScale();
    }
    LineCentres centres = new LineCentres(fine.view(), fine.lattice());
    List<Centre> measured = centres.all();
    if (measured.size() < 3) {
      throw refusal.noScale();
    }
    ScaleChecks checks = new ScaleChecks(fine, centres, measured, refusal);
    double inside = EdgeConcentration.shareInside(grey, fine);
    checks.plainGround(inside, ScaleChecks.INSIDE_AT_ALL);
    ScaleChecks.row(fine, refusal);
    if (measured.size() < FEWEST_LINES) {
      throw refusal.tooFew(measured.size());
    }
    checks.alike();
    checks.parallel();
    checks.nothingBetween();
    checks.oneScale(candidates, grey);
    checks.plainGround(inside, ScaleChecks.INSIDE);
    StepFit fit =
        new StepFit(
            measured.stream().mapToDouble(c -> c.mark().index()).toArray(),
            measured.stream().mapToDouble(Centre::u).toArray());
    checks.regular(fit);
    LongLines longer = LongLines.of(fine);
    longer.check(settings, refusal);
    return reading(photo, settings, fine, measured, fit, longer);
  }

  private static List<Candidate> candidates(GrayRaster grey, GrayRaster smooth) {
    List<Candidate> found =
        new ArrayList<>(
            LineDirections.across(smooth).parallelStream()
                .flatMap(deg -> Candidate.both(grey, deg).stream())
                .toList());
    found.sort(Comparator.comparingDouble(Candidate::merit).reversed());
    return found;
  }

  private static Candidate best(List<Candidate> candidates, Refusal refusal) {
    Optional<Candidate> first = candidates.stream().findFirst();
    if (first.isEmpty()) {
      throw refusal.noScale();
    }
    return first.get();
  }

  private static MicrometerReading reading(
      String photo,
      ScaleFacts settings,
      Candidate scale,
      List<Centre> measured,
      StepFit fit,
      LongLines longer) {
    int first = measured.get(0).mark().index();
    List<DivisionLine> lines = new ArrayList<>();
    for (int i = 0; i < measured.size(); i++) {
      Centre c = measured.get(i);
      Stroke s = c.mark().stroke();
      lines.add(
          new DivisionLine(
              c.mark().index() - first,
              scale.view().inPhoto(s.at(s.top()), s.top()),
              scale.view().inPhoto(s.at(s.bottom()), s.bottom()),
              fit.residualsPx[i],
              fit.curvePx[i],
              fit.used[i],
              longer.isLong(c.mark().index())));
    }
    double[] slopes = measured.stream().mapToDouble(c -> c.mark().stroke().slope()).toArray();
    double across = scale.acrossDeg();
    across = across > 90 ? across - 180 : across <= -90 ? across + 180 : across;
    return new MicrometerReading(
        photo,
        "",
        new MicrometerReading.Engraving(
            settings.divisionUm(),
            scale.ground() > 0,
            LatticeSearch.median(
                measured.stream().mapToDouble(c -> c.mark().stroke().width()).toArray()),
            longer.every()),
        new MicrometerReading.Step(
            new Measured(fit.stepPx, fit.stepUncertaintyPx), fit.degreesOfFreedom, fit.scatterPx),
        new Measured(
            across, Math.toDegrees(ScaleChecks.deviation(slopes) / Math.sqrt(slopes.length))),
        new MicrometerReading.Bend(fit.bend, fit.bent),
        measured.get(measured.size() - 1).mark().index() - first + 1,
        fit.lines,
        lines);
  }
}
