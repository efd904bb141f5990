package org.diesurvey.interchange.layout;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.interchange.Refused;
import org.diesurvey.interchange.gds.GdsLibrary;
import org.diesurvey.raster.PlaneTransform;

/** Walks down a structure and gathers the edges of all shapes in a window, and its bit cells. */
final class LayoutFlattening {
  /** Deepest nesting of structures. */
  private static final int DEEPEST = 60;

  /** Edges of one layer, at most: about 4 GB of memory for all six. */
  private static final int MOST_EDGES = 20_000_000;

  private static final int MOST_PLACED = 50_000_000;

  private static final int ALL_BITS = 63;

  private final LayoutCells cells;
  private final LayoutCells.Box window;
  private final List<String> bitCells;
  private final String place;
  private final Map<LayoutBit, LayoutEdges> edges = new EnumMap<>(LayoutBit.class);
  private final List<LayoutCells.Box> bits = new ArrayList<>();
  private final Map<String, Boolean> holdsBits = new HashMap<>();
  private long placed;

  private LayoutFlattening(
      LayoutCells cells, LayoutCells.Box window, List<String> bitCells, String place) {
    this.cells = cells;
    this.window = window;
    this.bitCells = bitCells;
    this.place = place;
    for (LayoutBit b : LayoutBit.values()) {
      edges.put(b, new LayoutEdges());
    }
  }

  /**
   * @param toPx from database units to pixels, y down
   * @param window in pixels
   */
  static LayoutFlattening of(
      LayoutCells cells,
      String name,
      PlaneTransform toPx,
      LayoutCells.Box window,
      List<String> bitCells,
      String place) {
    LayoutFlattening f = new LayoutFlattening(cells, window, bitCells, place);
    f.shapes(name, toPx, 0);
    f.bits(name, toPx);
    return f;
  }

  /** Edges of the shapes of a layer. */
  LayoutEdges edges(LayoutBit bit) {
    return edges.get(bit);
  }

  /** Rectangles of the bit cells in the window, px. */
  List<LayoutCells.Box> bits() {
    return bits;
  }

  private interface Visit {
    void at(String name, PlaneTransform map);
  }

  private void shapes(String name, PlaneTransform map, int depth) {
    if (depth > DEEPEST) {
      throw Refused.file(
          place, "structures are placed in one another deeper than " + DEEPEST + "; flatten them");
    }
    LayoutCells.Cell cell = cells.placed(name);
    for (LayoutCells.Shape s : cell.shapes()) {
      shape(s, map);
    }
    copies(cell, map, ALL_BITS, (n, m) -> shapes(n, m, depth + 1));
  }

  /** Visits all copies of placed structures that have something of the bits in the window. */
  private void copies(LayoutCells.Cell cell, PlaneTransform map, int bits, Visit visit) {
    for (GdsLibrary.Placed p : cell.placed()) {
      Optional<LayoutCells.Box> box = cells.box(p.name(), bits);
      if (box.isEmpty()) {
        continue;
      }
      placed += (long) p.columns() * p.rows();
      if (placed > MOST_PLACED) {
        throw Refused.file(
            place,
            "the structure places more than "
                + MOST_PLACED
                + " others; name a smaller structure or a window");
      }
      for (int row = 0; row < p.rows(); row++) {
        for (int column = 0; column < p.columns(); column++) {
          PlaneTransform to = LayoutCells.copy(p, column, row).then(map);
          if (box.get().mapped(to).meets(window)) {
            visit.at(p.name(), to);
          }
        }
      }
    }
  }

  private void shape(LayoutCells.Shape s, PlaneTransform map) {
    int n = s.xs.length;
    double[] xs = new double[n];
    double[] ys = new double[n];
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      xs[i] = map.x(s.xs[i], s.ys[i]);
      ys[i] = map.y(s.xs[i], s.ys[i]);
      low = Math.min(low, ys[i]);
      high = Math.max(high, ys[i]);
    }
    if (high < window.y0() || low > window.y1()) {
      return;
    }
    for (LayoutBit b : LayoutBit.values()) {
      if ((s.bits & b.bit()) != 0) {
        edges.get(b).add(xs, ys);
        if (edges.get(b).count() > MOST_EDGES) {
          throw Refused.file(
              place,
              "the layer "
                  + b.word()
                  + " has more than "
                  + MOST_EDGES
                  + " edges here; name a smaller structure or a window");
        }
      }
    }
  }

  private void bits(String name, PlaneTransform map) {
    if (bitCells.isEmpty()) {
      return;
    }
    copies(
        cells.placed(name),
        map,
        LayoutBit.DIFFUSION.bit() | LayoutBit.POLYSILICON.bit(),
        (n, to) -> {
          if (bitCells.contains(n)) {
            int devices = LayoutBit.DIFFUSION.bit() | LayoutBit.POLYSILICON.bit();
            bits.add(cells.box(n, devices).orElseThrow().mapped(to));
          } else if (holdsBits(n)) {
            bits(n, to);
          }
        });
  }

  private boolean holdsBits(String name) {
    Boolean known = holdsBits.get(name);
    if (known == null) {
      known =
          cells.placed(name).placed().stream()
              .anyMatch(p -> bitCells.contains(p.name()) || holdsBits(p.name()));
      holdsBits.put(name, known);
    }
    return known;
  }
}
