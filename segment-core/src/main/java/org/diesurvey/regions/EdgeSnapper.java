package org.diesurvey.regions;

import java.util.Arrays;
import org.diesurvey.raster.Axis;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.algorithm.Area;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * Moves the straight edges of a block from the tile borders to the picture's own steps: to the near
 * flank of the channel outside the block if there is one, else to the strongest change of grey or
 * activity.
 */
final class EdgeSnapper {
  /** How far into the block its own activity is sampled, um. */
  static final double INNER_UM = 44;

  /** Edges shorter than this are corners of a staircase and stay, um. */
  private static final double LEAST_EDGE_UM = 20;

  private final FineMap fine;
  private final double cellPx;
  private final double width;
  private final double height;
  private final OutlineTuning tuning;

  EdgeSnapper(FineMap fine, TileGrid grid, OutlineTuning tuning) {
    this.fine = fine;
    this.cellPx = grid.tilePx() / FineMap.PER_TILE;
    this.width = grid.width();
    this.height = grid.height();
    this.tuning = tuning;
  }

  /** The polygon with its long edges moved; the input itself if moving them made it invalid. */
  Polygon snap(Polygon p) {
    LinearRing shell = ring(p.getExteriorRing(), false);
    LinearRing[] holes = new LinearRing[p.getNumInteriorRing()];
    for (int i = 0; i < holes.length; i++) {
      holes[i] = ring(p.getInteriorRingN(i), true);
    }
    Polygon moved = TileShapes.FACTORY.createPolygon(shell, holes);
    return moved.isValid() && moved.getArea() > 0.4 * p.getArea() ? moved : p;
  }

  private LinearRing ring(LinearRing in, boolean hole) {
    Coordinate[] c = corners(in);
    int n = c.length;
    Coordinate[] out = new Coordinate[n + 1];
    for (int i = 0; i < n; i++) {
      out[i] = new Coordinate(c[i]);
    }
    boolean blockOnLeft = Area.ofRingSigned(in.getCoordinates()) < 0 != hole;
    for (int i = 0; i < n; i++) {
      Coordinate a = c[i];
      Coordinate b = c[(i + 1) % n];
      Axis along = a.x == b.x ? Axis.Y : Axis.X;
      boolean vertical = along == Axis.Y;
      double from = vertical ? Math.min(a.y, b.y) : Math.min(a.x, b.x);
      double to = vertical ? Math.max(a.y, b.y) : Math.max(a.x, b.x);
      double place = vertical ? a.x : a.y;
      if ((to - from) / cellPx * fine.cellUm() < LEAST_EDGE_UM || onBorder(along, place)) {
        continue;
      }
      double forward = vertical ? Math.signum(b.y - a.y) : Math.signum(b.x - a.x);
      // With the block on the left of the edge, outward is along x for edges that run along y,
      // against y for edges that run along x.
      int outward = (int) (vertical ? forward : -forward) * (blockOnLeft ? 1 : -1);
      double moved = place + outward * shift(along, place, from, to, outward);
      if (vertical) {
        out[i].x = moved;
        out[(i + 1) % n].x = moved;
      } else {
        out[i].y = moved;
        out[(i + 1) % n].y = moved;
      }
    }
    out[n] = new Coordinate(out[0]);
    return TileShapes.FACTORY.createLinearRing(out);
  }

  private boolean onBorder(Axis along, double place) {
    return place <= cellPx || place >= (along == Axis.Y ? width : height) - cellPx;
  }

  /** Corners of a closed rectilinear ring without the points in the middle of straight edges. */
  private static Coordinate[] corners(LinearRing r) {
    Coordinate[] all = r.getCoordinates();
    int n = all.length - 1;
    Coordinate[] kept = new Coordinate[n];
    int k = 0;
    for (int i = 0; i < n; i++) {
      Coordinate before = all[(i + n - 1) % n];
      Coordinate after = all[i + 1];
      boolean straight =
          before.x == all[i].x && all[i].x == after.x
              || before.y == all[i].y && all[i].y == after.y;
      if (!straight) {
        kept[k++] = all[i];
      }
    }
    return Arrays.copyOf(kept, k);
  }

  /** Outward shift of one edge, px; negative is inward. */
  private double shift(Axis along, double place, double from, double to, int outward) {
    int reach = (int) Math.round(tuning.reachUm() / fine.cellUm());
    int inner = (int) Math.round(INNER_UM / fine.cellUm());
    double trim = Math.min(0.1 * (to - from), 8 * cellPx);
    int first = (int) Math.ceil((from + trim) / cellPx);
    int last = (int) Math.floor((to - trim) / cellPx);
    int at = (int) Math.round(place / cellPx);
    int n = inner + 2 * reach + 1;
    double[] activity = new double[n];
    double[] grey = new double[n];
    for (int i = 0; i < n; i++) {
      // Profile cell i lies just beyond border i - inner, counted outward from the edge.
      int cell = outward > 0 ? at + i - inner : at - 1 - (i - inner);
      activity[i] = mean(along, cell, first, last, true);
      grey[i] = mean(along, cell, first, last, false);
    }
    double within = middle(activity, 0, inner - reach / 2);
    int valley = inner - reach;
    for (int i = inner - reach; i <= inner + reach + 2 && i < n; i++) {
      if (activity[i] < activity[valley]) {
        valley = i;
      }
    }
    if (activity[valley] < tuning.quiet() * within) {
      double level = (activity[valley] + within) / 2;
      int i = valley;
      while (i > inner - 2 * reach && i > 0 && activity[i - 1] < level) {
        i--;
      }
      return (i - inner) * cellPx;
    }
    return strongestStep(activity, grey, inner, reach) * cellPx;
  }

  private static int strongestStep(double[] activity, double[] grey, int inner, int reach) {
    double best = 0;
    double sum = 0;
    int at = 0;
    int count = 0;
    for (int i = inner - reach; i <= inner + reach; i++) {
      double step = Math.abs(difference(activity, i)) + Math.abs(difference(grey, i));
      sum += step;
      count++;
      // A small pull towards the place that the tiles voted for.
      double weighted = step * (1 - 0.25 * Math.abs(i - inner) / reach);
      if (weighted > best) {
        best = weighted;
        at = i - inner;
      }
    }
    return best > 1.6 * sum / count ? at : 0;
  }

  private static double difference(double[] v, int border) {
    double before = 0;
    double after = 0;
    int run = 4;
    for (int k = 0; k < run; k++) {
      before += v[Math.max(0, border - 1 - k)];
      after += v[Math.min(v.length - 1, border + k)];
    }
    return (after - before) / run;
  }

  private double mean(Axis along, int cell, int first, int last, boolean active) {
    boolean vertical = along == Axis.Y;
    int limit = vertical ? fine.columns() : fine.rows();
    int c = Math.max(0, Math.min(limit - 1, cell));
    int end = Math.min(last, vertical ? fine.rows() : fine.columns());
    double sum = 0;
    for (int k = Math.max(0, first); k < end; k++) {
      int row = vertical ? k : c;
      int column = vertical ? c : k;
      sum += active ? fine.activity(row, column) : fine.grey(row, column);
    }
    return sum / Math.max(1, end - Math.max(0, first));
  }

  private static double middle(double[] v, int from, int to) {
    double[] part = Arrays.copyOfRange(v, from, to);
    Arrays.sort(part);
    return part[part.length / 2];
  }
}
