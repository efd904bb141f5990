package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * Flat rectangles of a tone of their own in bare ground: plates of capacitors, large resistors and
 * transistors. Their inside looks like bare ground to a tile; that a step of tone surrounds them on
 * four straight sides tells them apart.
 */
final class FlatPlates {
  /** Least side, um, and least area, um2 (own choice). */
  private static final double LEAST_SIDE_UM = 24;

  private static final double LEAST_UM2 = 1500;

  /** Largest share of the picture. */
  private static final double LARGEST = 0.25;

  /** Share of its rectangle that a plate fills: dust may lie on it (own choice). */
  private static final double FILLED = 0.88;

  /** The surroundings that are looked at: from this many cells outside to that many. */
  private static final int NEAREST = 3;

  private static final int FARTHEST = 10;

  /** Share of them that must be calm, and of the plate that must be bare (own choice). */
  private static final double ON_BARE = 0.6;

  /** A cell is calm up to this change between its pixels, over that of bare ground (own choice). */
  private static final double CALM = 1.6;

  /** A plate is no rougher than this, over the ground around it (own choice). */
  private static final double ROUGHER = 1.25;

  /** More than so many of one size are bond pads or a pattern of the layout (own choice). */
  private static final int MOST_ALIKE = 3;

  private static final double ALIKE = 1.12;

  /** One cell in so many is enough for a median; no divisor of the columns of most pictures. */
  private static final int EVERY = 13;

  private final FineMap fine;
  private final int columns;
  private final int rows;
  private final boolean[] bare;

  /** Cells that show nothing of their own, whatever the windows of the tiles reach. */
  private final boolean[] calm;

  /** Least step of tone at the side of a plate. */
  private final double least;

  private FlatPlates(FineMap fine, boolean[] bare, MacroTuning tuning) {
    this.fine = fine;
    this.columns = fine.columns();
    this.rows = fine.rows();
    this.bare = bare;
    this.least = tuning.plateStep() * medianOfBare(this::step);
    double smooth = medianOfBare(this::activity);
    this.calm = new boolean[bare.length];
    for (int i = 0; i < calm.length; i++) {
      calm[i] = step(i) <= least && activity(i) <= CALM * smooth;
    }
  }

  /**
   * Finds the tiles that lie in plates.
   *
   * @param label one a tile: ordinal of a {@link SurfaceClass}, or another number for tiles that
   *     are no core
   */
  static boolean[] tiles(int[] label, FineMap fine, TileGrid grid, MacroTuning tuning) {
    boolean[] bare = new boolean[fine.columns() * fine.rows()];
    int q = FineMap.PER_TILE;
    int n = 0;
    for (int i = 0; i < bare.length; i++) {
      int tile = i / fine.columns() / q * grid.columns() + i % fine.columns() / q;
      bare[i] = label[tile] == SurfaceClass.BARE.ordinal();
      n += bare[i] ? 1 : 0;
    }
    boolean[] out = new boolean[label.length];
    if (n == 0) {
      return out;
    }
    for (PixelRect plate : new FlatPlates(fine, bare, tuning).find()) {
      for (int y = plate.y() / q; y <= (plate.y() + plate.height() - 1) / q; y++) {
        for (int x = plate.x() / q; x <= (plate.x() + plate.width() - 1) / q; x++) {
          int t = y * grid.columns() + x;
          out[t] = label[t] < SurfaceClass.COUNT;
        }
      }
    }
    return out;
  }

  private List<PixelRect> find() {
    byte[] mask = new byte[calm.length];
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (calm[i] ? 1 : 0);
    }
    Components.Labelling parts = Components.label(LabelRaster.over(columns, rows, mask));
    List<PixelRect> plates = new ArrayList<>();
    for (Components.Component c : parts.components()) {
      if (hasShape(c) && standsOut(parts, c)) {
        plates.add(c.bounds());
      }
    }
    return plates.stream().filter(p -> alike(p, plates) <= MOST_ALIKE).toList();
  }

  private boolean hasShape(Components.Component c) {
    PixelRect b = c.bounds();
    double cell = fine.cellUm();
    double box = (double) b.width() * b.height();
    return Math.min(b.width(), b.height()) * cell >= LEAST_SIDE_UM
        && c.cells() * cell * cell >= LEAST_UM2
        && c.cells() >= FILLED * box
        && box <= LARGEST * columns * rows
        && b.x() > 1
        && b.y() > 1
        && b.x() + b.width() < columns - 1
        && b.y() + b.height() < rows - 1;
  }

  /** Whether calm bare ground of another tone lies around it. */
  private boolean standsOut(Components.Labelling parts, Components.Component c) {
    PixelRect b = c.bounds();
    double inGrey = 0;
    double inActivity = 0;
    double outGrey = 0;
    double outActivity = 0;
    int bareInside = 0;
    int calmAround = 0;
    int around = 0;
    for (int y = b.y() - FARTHEST; y < b.y() + b.height() + FARTHEST; y++) {
      for (int x = b.x() - FARTHEST; x < b.x() + b.width() + FARTHEST; x++) {
        if (x < 0 || y < 0 || x >= columns || y >= rows) {
          continue;
        }
        int i = y * columns + x;
        int away =
            Math.max(
                Math.max(b.x() - x, x - (b.x() + b.width() - 1)),
                Math.max(b.y() - y, y - (b.y() + b.height() - 1)));
        if (parts.ids()[i] == c.id()) {
          bareInside += bare[i] ? 1 : 0;
          inGrey += fine.grey(y, x);
          inActivity += fine.activity(y, x);
        } else if (away >= NEAREST) {
          around++;
          if (calm[i]) {
            calmAround++;
            outGrey += fine.grey(y, x);
            outActivity += fine.activity(y, x);
          }
        }
      }
    }
    int in = c.cells();
    return calmAround > 0
        && bareInside >= ON_BARE * in
        && calmAround >= ON_BARE * around
        && Math.abs(inGrey / in - outGrey / calmAround) >= least
        && inActivity / in <= ROUGHER * outActivity / calmAround;
  }

  private static long alike(PixelRect p, List<PixelRect> plates) {
    return plates.stream()
        .filter(o -> near(o.width(), p.width()) && near(o.height(), p.height()))
        .count();
  }

  private static boolean near(int a, int b) {
    return a <= ALIKE * b && b <= ALIKE * a;
  }

  /** Largest difference of grey across a cell. */
  private float step(int cell) {
    int row = cell / columns;
    int column = cell % columns;
    int up = Math.max(0, row - 1);
    int down = Math.min(rows - 1, row + 1);
    int left = Math.max(0, column - 1);
    int right = Math.min(columns - 1, column + 1);
    return Math.max(
        Math.abs(fine.grey(row, right) - fine.grey(row, left)),
        Math.abs(fine.grey(down, column) - fine.grey(up, column)));
  }

  private float activity(int cell) {
    return fine.activity(cell / columns, cell % columns);
  }

  /** Median over bare ground, of one cell in {@link #EVERY}. */
  private double medianOfBare(IntToDoubleFunction value) {
    double[] taken =
        IntStream.range(0, (bare.length + EVERY - 1) / EVERY)
            .map(i -> i * EVERY)
            .filter(i -> bare[i])
            .mapToDouble(value)
            .sorted()
            .toArray();
    return taken.length == 0 ? 0 : taken[taken.length / 2];
  }
}
