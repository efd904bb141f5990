package org.diesurvey.inspection;

import java.util.List;
import java.util.Locale;

/**
 * Sizes of what a process node puts on a die, for telling whether a photograph can show it. Typical
 * figures, one a node; between nodes the logarithms are taken as straight.
 */
final class NodeSizes {
  /** Width over height of a six-transistor bit cell (open memory model CACTI, asp_ratio 1.46). */
  static final double CELL_ASPECT = 1.46;

  /** Typical figures of one node with where they come from. */
  private record Row(
      double nodeNm, double rowUm, String rowSource, double cellUm2, String cellSource) {}

  private static final String TRACKS = "tracks times metal pitch, from memory";
  private static final String INDUSTRY = "industry table of the node";

  /** From the finest to the coarsest. */
  private static final List<Row> ROWS =
      List.of(
          new Row(14, 0.576, TRACKS, 0.0588, INDUSTRY),
          new Row(20, 0.576, TRACKS, 0.07, INDUSTRY),
          new Row(22, 0.84, TRACKS, 0.092, INDUSTRY),
          new Row(28, 0.9, TRACKS, 0.127, INDUSTRY),
          new Row(40, 1.26, TRACKS, 0.242, INDUSTRY),
          new Row(45, 1.40, "open 45 nm cell library", 0.346, "published report"),
          new Row(65, 1.8, TRACKS, 0.526, "ratio in an industry table"),
          new Row(90, 2.52, TRACKS, 1.0, "published report"),
          new Row(130, 2.72, "open 130 nm cell library", 2.0, INDUSTRY),
          new Row(180, 3.92, "open 180 nm cell library", 4.65, INDUSTRY),
          new Row(250, 7.5, TRACKS, 10.26, INDUSTRY),
          new Row(350, 13.0, TRACKS, 18.0, "ratio in an industry table"));

  /** A length with its source. */
  record Size(double um, String source) {}

  private NodeSizes() {}

  /** Height of a standard-cell row. */
  static Size rowHeight(double nodeNm) {
    return size(nodeNm, false);
  }

  /** Shorter side of a six-transistor bit cell, from its area. */
  static Size bitCellSide(double nodeNm) {
    return size(nodeNm, true);
  }

  private static double value(Row row, boolean cell) {
    return cell ? Math.sqrt(row.cellUm2 / CELL_ASPECT) : row.rowUm;
  }

  private static String source(Row row, boolean cell) {
    return cell ? row.cellSource : row.rowSource;
  }

  private static Size size(double nodeNm, boolean cell) {
    Row first = ROWS.get(0);
    Row last = ROWS.get(ROWS.size() - 1);
    if (nodeNm < first.nodeNm || nodeNm > last.nodeNm) {
      // Lengths shrink with the node, to first order.
      Row end = nodeNm < first.nodeNm ? first : last;
      return new Size(
          value(end, cell) * nodeNm / end.nodeNm,
          String.format(Locale.ROOT, "scaled from %.0f nm", end.nodeNm));
    }
    for (int i = 0; i < ROWS.size(); i++) {
      Row row = ROWS.get(i);
      if (row.nodeNm == nodeNm) {
        return new Size(value(row, cell), source(row, cell));
      }
      if (row.nodeNm > nodeNm) {
        Row before = ROWS.get(i - 1);
        double part = Math.log(nodeNm / before.nodeNm) / Math.log(row.nodeNm / before.nodeNm);
        double um = value(before, cell) * Math.pow(value(row, cell) / value(before, cell), part);
        return new Size(
            um, String.format(Locale.ROOT, "between %.0f and %.0f nm", before.nodeNm, row.nodeNm));
      }
    }
    throw new IllegalStateException("no row for " + nodeNm + " nm");
  }
}
