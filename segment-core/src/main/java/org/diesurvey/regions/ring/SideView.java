package org.diesurvey.regions.ring;

import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.Axis;

/**
 * A map of the die seen from one of its sides: cells by depth below the side and place along it.
 *
 * @param side seen from
 * @param columns of the map
 * @param rows of the map
 */
record SideView(DieSide side, int columns, int rows) {
  /** Cells across, from the side to the opposite one. */
  int depth() {
    return side.along() == Axis.X ? rows : columns;
  }

  /** Cells along the side. */
  int length() {
    return side.along() == Axis.X ? columns : rows;
  }

  int row(int depth, int place) {
    return side.along() == Axis.X ? across(depth) : place;
  }

  int column(int depth, int place) {
    return side.along() == Axis.X ? place : across(depth);
  }

  /** Number of a cell, row by row. */
  int cell(int depth, int place) {
    return row(depth, place) * columns + column(depth, place);
  }

  private int across(int depth) {
    return side.far() ? depth() - 1 - depth : depth;
  }
}
