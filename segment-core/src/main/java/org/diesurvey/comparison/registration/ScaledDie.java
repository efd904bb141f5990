package org.diesurvey.comparison.registration;

import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparationStep;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Preparation;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.Survey;
import org.diesurvey.vision.ImageFilters;

/**
 * The upright die of a survey, cut from its photograph again, at any physical pitch. Its own frame
 * has the origin at the upper left corner, x right, y down, um.
 *
 * @param die as it was surveyed
 * @param umPerPx pitch of the upright raster; assumed where no scale was stated
 * @param scaled whether it was stated
 */
public record ScaledDie(PreparedDie die, double umPerPx, boolean scaled) {
  /** Output rows of one band of work. */
  private static final int BAND = 256;

  /** Uncertainty of an edge where a survey does not tell it, photo px (own choice). */
  private static final double USUAL_EDGE_PX = 0.5;

  public static ScaledDie of(ComparisonSide side) {
    Survey survey = side.survey();
    int bin = survey.method().photoPxPerWorkingPx();
    PixelSource pixels =
        side.flatField().isPresent() ? side.photo().proportional() : side.photo().pixels();
    PreparedDie die = PreparedDie.of(pixels, frame(survey), bin, side.flatField());
    ScaleRecord scale = survey.scale();
    double photoPitch =
        scale
            .calibration()
            .map(c -> c.umPerPx().value())
            .or(() -> scale.inferred().map(i -> Math.sqrt(i.lowUmPerPx() * i.highUmPerPx())))
            .orElse(0.5);
    return new ScaledDie(die, photoPitch * bin, scale.calibration().isPresent());
  }

  /** The frame that was surveyed; found again, it might differ by the version of the program. */
  private static DieLocation frame(Survey survey) {
    DieFrame f = survey.die();
    // Lower left, lower right, upper right, upper left in surveys.
    List<PixelPoint> corners =
        IntStream.of(3, 2, 1, 0)
            .mapToObj(i -> f.outlinePx().get(i))
            .map((Point p) -> new PixelPoint(p.x(), p.y()))
            .toList();
    Preparation done = survey.preparation();
    double edge =
        done.step(PreparationStep.Kind.DIE_EDGE)
            .map(s -> s.figures().get(PreparationStep.EDGE_UNCERTAINTY_PX))
            .orElse(USUAL_EDGE_PX);
    boolean tilted = done.step(PreparationStep.Kind.TILT).isPresent();
    return new DieLocation(f.realEdges(), corners, f.rotationDeg(), edge, tilted);
  }

  public double widthUm() {
    return die.width() * umPerPx;
  }

  public double heightUm() {
    return die.height() * umPerPx;
  }

  /** The whole die at a pitch not finer than its own, band by band. */
  GrayRaster at(double pitchUm) {
    int w = Math.max(8, (int) Math.floor(widthUm() / pitchUm));
    int h = Math.max(8, (int) Math.floor(heightUm() / pitchUm));
    double step = pitchUm / umPerPx;
    GrayRaster out = new GrayRaster(w, h);
    int bands = (h + BAND - 1) / BAND;
    IntStream.range(0, bands).parallel().forEach(i -> band(out, step, i * BAND));
    return out;
  }

  private void band(GrayRaster out, double step, int first) {
    int rows = Math.min(BAND, out.height() - first);
    int margin = 4 + (int) Math.ceil(3 * step);
    int y0 = Math.max(0, (int) Math.floor(first * step) - margin);
    int y1 = Math.min(die.height(), (int) Math.ceil((first + rows) * step) + margin);
    GrayRaster in = die.rows(y0, Math.max(1, y1 - y0));
    if (step > 1.05) {
      in = ImageFilters.gaussian(in, 0.45 * Math.sqrt(step * step - 1) + 0.05);
    }
    PlaneTransform map = new PlaneTransform(step, 0, 0, 0, step, first * step - y0);
    GrayRaster part = ImageFilters.warp(in, map, out.width(), rows);
    System.arraycopy(part.array(), 0, out.array(), first * out.width(), part.array().length);
  }

  /** Whether a place of the upright frame lies in the photograph, some pixels from its rim. */
  boolean seen(double xUm, double yUm) {
    double x = xUm / umPerPx;
    double y = yUm / umPerPx;
    if (x < 0 || y < 0 || x > die.width() || y > die.height()) {
      return false;
    }
    double px = die.uprightToPhoto().x(x, y);
    double py = die.uprightToPhoto().y(x, y);
    return px >= 2 && py >= 2 && px <= die.source().width() - 2 && py <= die.source().height() - 2;
  }
}
