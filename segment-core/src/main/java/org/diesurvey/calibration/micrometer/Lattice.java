package org.diesurvey.calibration.micrometer;

import java.util.List;

/**
 * Strokes that stand at equal steps, each with its whole number.
 *
 * @param marks the strokes of the lattice, by index
 * @param stepPx mean distance of neighbours along u, px
 * @param atV height at which the steps were taken, px
 * @param strays strokes of like depth between the first and the last mark that stand on no step
 */
record Lattice(List<Mark> marks, double stepPx, double atV, List<Stroke> strays) {
  /**
   * A stroke and its number; the first of a lattice has 0.
   *
   * @param index whole number of divisions from the first
   * @param stroke where it is
   */
  record Mark(int index, Stroke stroke) {}

  Lattice {
    marks = List.copyOf(marks);
    strays = List.copyOf(strays);
  }

  /** Places from the first to the last mark, both included. */
  int places() {
    return marks.get(marks.size() - 1).index() + 1;
  }

  /** Share of the places that hold a mark, strays counted as places: 1 for a perfect scale. */
  double fullness() {
    return marks.size() / (double) (places() + strays.size());
  }

  /** What the search maximises: many marks, few gaps, few strays. */
  double merit() {
    return marks.size() * fullness() * fullness();
  }
}
