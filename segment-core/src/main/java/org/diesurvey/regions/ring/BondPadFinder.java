package org.diesurvey.regions.ring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.diesurvey.tiles.FineMap;

/**
 * Counts what a ring repeats along its sides: places of one width, all brighter or all darker than
 * the gaps beside them, at one depth of each side. They are counted one by one, so that they may be
 * sparse, uneven, or missing on a side. Where most of them hold an even square that ends on three
 * sides at least, these are bond pads; else they are I/O cells.
 */
public final class BondPadFinder {
  /** Widths looked for, um: bond pads and I/O cells (common practice, no source). */
  private static final double LEAST_WIDTH_UM = 24;

  private static final double LARGEST_WIDTH_UM = 132;

  /** From one width looked for to the next. */
  private static final double STEP = 1.09;

  /** Part of a width that is looked at, so that blurred edges stay out. */
  private static final double INNER = 0.8;

  /** Part of a width that is looked at beside it. */
  private static final double GAP = 0.12;

  /** Least contrast against both gaps, share of full scale. */
  static final double LEAST_CONTRAST = 0.008;

  /** Contrast, as a share of that of clear ones, from which a place is counted. */
  private static final double SURE = 0.6;

  /** The same below which it is not; between the two it counts half. */
  private static final double DOUBTFUL = 0.35;

  /** Fewer places on all sides together make no ring. */
  private static final int LEAST_COUNT = 6;

  /** Least part of all sides that the places cover. */
  private static final double LEAST_COVER = 0.24;

  /** Part of the places that must hold an even square to be pads. */
  private static final double PADS = 0.6;

  /** The same for the second line of a double row. */
  private static final double SECOND_LINE = 0.8;

  /** Farthest second line, in sides of a pad (own choice). */
  private static final double FARTHEST_LINE = 1.5;

  /** How far a place may be off the usual pitch to be in step, as a share of it. */
  private static final double IN_STEP = 0.12;

  /** Contrast of a pad over the deviation inside it. */
  private static final double EVEN = 2.5;

  /**
   * Standard uncertainty of a count beside its doubtful places, as a share: places without a pad,
   * corners, dirt. Chosen on 44 drawn dies.
   */
  private static final double U_PADS = 0.03;

  private static final double U_CELLS = 0.1;

  private final FineMap fine;
  private final double cellPx;

  /**
   * @param cellPx side of a cell of the fine map, px of the upright raster
   */
  public BondPadFinder(FineMap fine, double cellPx) {
    this.fine = fine;
    this.cellPx = cellPx;
  }

  private record Place(int at, double contrast) {}

  private record Row(RingStrip strip, int width, List<Place> places, double score) {
    List<Integer> counted(double share) {
      double clear = clear(places);
      return places.stream().filter(p -> p.contrast >= share * clear).map(Place::at).toList();
    }
  }

  /** Empty where nothing repeats clearly. */
  public Optional<BondPads> find(List<RingStrip> strips) {
    double length = strips.stream().mapToDouble(RingStrip::length).sum();
    double best = 0;
    List<Row> rows = List.of();
    int largest = (int) Math.round(LARGEST_WIDTH_UM / fine.cellUm());
    for (double w = LEAST_WIDTH_UM / fine.cellUm(); w <= largest; w *= STEP) {
      int width = Math.max(8, (int) Math.round(w));
      List<Row[]> clearest = strips.stream().map(r -> clearest(r, width)).toList();
      for (int sign = 0; sign < 2; sign++) {
        List<Row> some = new ArrayList<>();
        for (Row[] r : clearest) {
          if (r[sign] != null) {
            some.add(r[sign]);
          }
        }
        double score = some.stream().mapToDouble(Row::score).sum();
        if (score > best) {
          best = score;
          rows = some;
        }
      }
    }
    return best < LEAST_COVER * length ? Optional.empty() : counted(rows);
  }

  private Optional<BondPads> counted(List<Row> rows) {
    double pitch = usualPitch(rows);
    int sure = 0;
    int doubtful = 0;
    for (Row r : rows) {
      List<Integer> firm = r.counted(SURE);
      sure += firm.size();
      for (int at : r.counted(DOUBTFUL)) {
        if (firm.contains(at)) {
          continue;
        }
        // A faint place in step with a clear one is one of them.
        if (firm.stream().anyMatch(f -> Math.abs(Math.abs(f - at) - pitch) < IN_STEP * pitch)) {
          sure++;
        } else {
          doubtful++;
        }
      }
    }
    int count = sure + doubtful / 2;
    if (count < LEAST_COUNT) {
      return Optional.empty();
    }
    int lines = padLines(rows);
    double u = Math.hypot(doubtful / 2.0, (lines > 0 ? U_PADS : U_CELLS) * count);
    int each = Math.max(1, lines);
    return Optional.of(new BondPads(each * count, each * u, pitch * cellPx, lines > 0));
  }

  /**
   * For the dark and for the bright places of one side the depth at which most stands out; null if
   * nothing does.
   */
  private static Row[] clearest(RingStrip s, int width) {
    Row[] best = new Row[2];
    for (int d = 0; d + width <= s.depth(); d += Math.max(1, width / 8)) {
      double[][] contrast = contrast(s, d, width);
      for (int sign = 0; sign < 2; sign++) {
        Row r = row(s, width, contrast[sign]);
        if (r.score > (best[sign] == null ? 0 : best[sign].score)) {
          best[sign] = r;
        }
      }
    }
    return best;
  }

  /** Contrast of places that start at each cell, of dark and of bright ones. */
  private static double[][] contrast(RingStrip s, int depth, int width) {
    int edge = (int) Math.round(width * (1 - INNER) / 2);
    int gap = Math.max(2, (int) Math.round(GAP * width));
    double[] sum = new double[s.length() + 1];
    double[] square = new double[s.length() + 1];
    for (int p = 0; p < s.length(); p++) {
      double v = s.mean(depth + edge, depth + width - edge, p, p + 1);
      sum[p + 1] = sum[p] + v;
      square[p + 1] = square[p] + v * v;
    }
    double n = width - 2 * edge;
    double[][] contrast = new double[2][s.length()];
    for (int x = gap + 1; x + width + gap + 1 <= s.length(); x++) {
      double in = (sum[x + width - edge] - sum[x + edge]) / n;
      double variance = (square[x + width - edge] - square[x + edge]) / n - in * in;
      double scatter = Math.sqrt(Math.max(0, variance));
      double left = (sum[x - 1] - sum[x - 1 - gap]) / gap;
      double right = (sum[x + width + 1 + gap] - sum[x + width + 1]) / gap;
      contrast[0][x] = Math.min(-(in - left), -(in - right)) - scatter;
      contrast[1][x] = Math.min(in - left, in - right) - scatter;
    }
    return contrast;
  }

  private static Row row(RingStrip s, int width, double[] contrast) {
    List<Place> places = apart(contrast, width);
    double clear = clear(places);
    double score = 0;
    for (Place p : places) {
      boolean counts = clear >= LEAST_CONTRAST && p.contrast >= DOUBTFUL * clear;
      score += counts ? width * Math.min(1, p.contrast / clear) : 0;
    }
    return new Row(s, width, places, score);
  }

  /** Places of highest contrast that do not overlap, in order. */
  private static List<Place> apart(double[] contrast, int width) {
    List<Place> peaks = new ArrayList<>();
    for (int x = 1; x + 1 < contrast.length; x++) {
      double c = contrast[x];
      if (c > LEAST_CONTRAST / 2 && c >= contrast[x - 1] && c > contrast[x + 1]) {
        peaks.add(new Place(x, c));
      }
    }
    peaks.sort(Comparator.comparingDouble((Place p) -> -p.contrast));
    List<Place> out = new ArrayList<>();
    boolean[] taken = new boolean[contrast.length];
    for (Place p : peaks) {
      if (!taken[p.at]) {
        out.add(p);
        int to = Math.min(contrast.length, p.at + width + 1);
        Arrays.fill(taken, Math.max(0, p.at - width), to, true);
      }
    }
    out.sort(Comparator.comparingInt(Place::at));
    return out;
  }

  /** Contrast of clear places: a quarter of all have more. */
  private static double clear(List<Place> places) {
    double[] c = places.stream().mapToDouble(Place::contrast).sorted().toArray();
    return c.length == 0 ? 0 : c[c.length - 1 - c.length / 4];
  }

  /**
   * In how many lines most of the counted places hold even squares of one size: 0 for I/O cells
   * without visible pads, 2 for a double row.
   */
  private static int padLines(List<Row> rows) {
    int count = rows.stream().mapToInt(r -> r.counted(SURE).size()).sum();
    int width = rows.get(0).width;
    int step = Math.max(1, width / 16);
    int lines = 0;
    for (int side = width; side >= Math.max(8, 0.55 * width); side -= step) {
      for (int sign = -1; sign <= 1; sign += 2) {
        int first = 0;
        int second = 0;
        for (Row r : rows) {
          int[] holding = holding(r, side, sign, step);
          first += holding[0];
          second += holding[1];
        }
        if (first >= PADS * count) {
          lines = Math.max(lines, second >= SECOND_LINE * count ? 2 : 1);
        }
      }
    }
    return lines;
  }

  /**
   * Most of the places of a row that hold a square at one depth and one shift, and most at a depth
   * beside it.
   */
  private static int[] holding(Row r, int side, int sign, int step) {
    List<Integer> places = r.counted(SURE);
    int down = Math.max(1, side / 10);
    int[] most = new int[Math.max(0, (r.strip.depth() - side) / down + 1)];
    for (int k = 0; k < most.length; k++) {
      for (int shift = -2; shift <= 2; shift++) {
        int n = 0;
        for (int at : places) {
          int p = at + (r.width - side) / 2 + shift * step;
          n += isSquare(r.strip, k * down, p, side, sign) ? 1 : 0;
        }
        most[k] = Math.max(most[k], n);
      }
    }
    int first = 0;
    for (int k = 0; k < most.length; k++) {
      first = most[k] > most[first] ? k : first;
    }
    int second = 0;
    for (int k = 0; k < most.length; k++) {
      int apart = Math.abs(k - first) * down;
      second = apart > side && apart < FARTHEST_LINE * side ? Math.max(second, most[k]) : second;
    }
    return new int[] {most.length == 0 ? 0 : most[first], second};
  }

  private static boolean isSquare(RingStrip s, int d, int p, int side, int sign) {
    int edge = (int) Math.round(side * (1 - INNER) / 2);
    int gap = Math.max(2, (int) Math.round(GAP * side));
    int end = p + side;
    int foot = d + side;
    if (p - 1 - gap < 0 || end + 1 + gap > s.length()) {
      return false;
    }
    int d0 = d + edge;
    int d1 = foot - edge;
    int p0 = p + edge;
    int p1 = end - edge;
    double in = s.mean(d0, d1, p0, p1);
    double least = LEAST_CONTRAST;
    if (sign * (in - s.mean(d0, d1, p - 1 - gap, p - 1)) < least
        || sign * (in - s.mean(d0, d1, end + 1, end + 1 + gap)) < least) {
      return false;
    }
    least = Math.max(least, EVEN * s.deviation(d0, d1, p0, p1));
    int sides = sign * (in - s.mean(d0, d1, p - 1 - gap, p - 1)) > least ? 1 : 0;
    sides += sign * (in - s.mean(d0, d1, end + 1, end + 1 + gap)) > least ? 1 : 0;
    sides += d > gap && sign * (in - s.mean(d - 1 - gap, d - 1, p0, p1)) > least ? 1 : 0;
    boolean below = foot + 1 + gap <= s.depth();
    sides += below && sign * (in - s.mean(foot + 1, foot + 1 + gap, p0, p1)) > least ? 1 : 0;
    return sides >= 3;
  }

  /** Median distance of neighbours, cells; 0 if less than half lie near it. */
  private static double usualPitch(List<Row> rows) {
    List<Integer> gaps = new ArrayList<>();
    for (Row r : rows) {
      List<Integer> at = r.counted(SURE);
      for (int i = 1; i < at.size(); i++) {
        gaps.add(at.get(i) - at.get(i - 1));
      }
    }
    if (gaps.isEmpty()) {
      return 0;
    }
    gaps.sort(null);
    double middle = gaps.get(gaps.size() / 2);
    double[] near =
        gaps.stream()
            .mapToDouble(g -> g)
            .filter(g -> Math.abs(g - middle) < 0.1 * middle)
            .toArray();
    return near.length * 2 < gaps.size() ? 0 : Arrays.stream(near).average().orElse(0);
  }
}
