package org.diesurvey.calibration.micrometer;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.diesurvey.calibration.micrometer.Lattice.Mark;
import org.diesurvey.raster.GrayRaster;

/**
 * A possible scale: a view, its strokes and the most regular row among them.
 *
 * @param view the photograph turned
 * @param ground 1 for dark lines on bright ground, -1 for bright lines
 * @param strokes everything that runs along the view
 * @param lattice the row
 */
record Candidate(UprightView view, int ground, List<Stroke> strokes, Lattice lattice) {
  /** Strokes of one view that are looked at; a scale has hundreds, a die's texture far more. */
  private static final int MOST_STROKES = 4000;

  /** Remaining turn that no longer matters: its cosine differs from 1 by less than 1e-7. */
  private static final double LEVEL_DEG = 0.02;

  /** The best rows with dark and with bright lines. */
  static List<Candidate> both(GrayRaster photo, double acrossDeg) {
    UprightView view = new UprightView(photo, acrossDeg);
    return Stream.concat(of(view, 1).stream(), of(view.inverted(), -1).stream()).toList();
  }

  /**
   * The scale seen in its own direction: the mean slope of its lines is taken out, until there is
   * none left.
   */
  Candidate refined(GrayRaster photo) {
    Candidate c = this;
    for (int round = 0; round < 3; round++) {
      double turn = LineDirections.apart(c.acrossDeg(), c.view.acrossDeg());
      if (turn < LEVEL_DEG) {
        break;
      }
      UprightView turned = new UprightView(photo, c.acrossDeg());
      Optional<Candidate> next = of(ground > 0 ? turned : turned.inverted(), ground);
      if (next.isEmpty()) {
        break;
      }
      c = next.get();
    }
    return c;
  }

  private static Optional<Candidate> of(UprightView view, int ground) {
    List<Stroke> found = LineSegmentDetector.in(view);
    if (found.size() > MOST_STROKES) {
      found.sort(Comparator.comparingDouble(Stroke::length).reversed());
      found = found.subList(0, MOST_STROKES);
    }
    List<Stroke> strokes = StrokeJoiner.joined(found);
    return LatticeSearch.best(strokes, view.height())
        .map(l -> new Candidate(view, ground, strokes, l));
  }

  /**
   * Merit of the lattice, weighted by how much its lines stand out and how narrow they are: seen
   * with the wrong ground, the gaps between lines are strokes too, but wider than the lines.
   */
  double merit() {
    double depth = median(Stroke::depth);
    double narrow = 1 - Math.min(0.95, lineWidth() / lattice.stepPx());
    return lattice.merit() * Math.sqrt(depth) * narrow * narrow;
  }

  /** Usual width of the lines, px. */
  double lineWidth() {
    return median(Stroke::width);
  }

  private double median(ToDoubleFunction<Stroke> value) {
    return LatticeSearch.median(
        lattice.marks().stream().map(Mark::stroke).mapToDouble(value).toArray());
  }

  /** Direction across the lines with their mean slope taken out, degrees. */
  double acrossDeg() {
    double[] slopes = lattice.marks().stream().mapToDouble(m -> m.stroke().slope()).toArray();
    return view.acrossDeg() - Math.toDegrees(Math.atan(LatticeSearch.median(slopes)));
  }
}
