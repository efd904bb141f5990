package org.diesurvey.calibration.micrometer;

import java.util.List;
import java.util.Optional;
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

  static Optional<Candidate> of(GrayRaster photo, double acrossDeg, int ground) {
    UprightView view = new UprightView(photo, acrossDeg, ground);
    List<Stroke> found = Strokes.in(view);
    if (found.size() > MOST_STROKES) {
      found.sort(java.util.Comparator.comparingDouble(Stroke::length).reversed());
      found = found.subList(0, MOST_STROKES);
    }
    List<Stroke> strokes = StrokeJoiner.joined(found);
    return LatticeSearch.best(strokes, view.height())
        .map(l -> new Candidate(view, ground, strokes, l));
  }

  /** Merit of the lattice, weighted by how much its lines stand out. */
  double merit() {
    double depth =
        LatticeSearch.median(
            lattice.marks().stream().mapToDouble(m -> m.stroke().depth()).toArray());
    return lattice.merit() * Math.sqrt(depth);
  }

  /** Direction across the lines with their mean slope taken out, degrees. */
  double acrossDeg() {
    double[] slopes = lattice.marks().stream().mapToDouble(m -> m.stroke().slope()).toArray();
    return view.acrossDeg() - Math.toDegrees(Math.atan(LatticeSearch.median(slopes)));
  }
}
