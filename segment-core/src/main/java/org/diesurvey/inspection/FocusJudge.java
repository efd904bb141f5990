package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntPredicate;
import org.diesurvey.inspection.FocusMap.Corner;
import org.diesurvey.inspection.FocusMap.Side;

/**
 * Judges whether a side or a corner of the field is out of focus: its blur must be plain in itself
 * and a multiple of that opposite. Below {@link #PLAIN_PX} the fineness of the layout alone makes
 * such differences, so nothing is said.
 */
final class FocusJudge {
  /** Blur that the layout alone does not feign, px. */
  static final double PLAIN_PX = 1.8;

  /** How many times the blur opposite. */
  static final double TIMES = 1.7;

  /** Fewer values than this say nothing of a part of the field. */
  private static final int LEAST_CELLS = 3;

  /** A corner of a strip one cell deep is a piece of its side: one layout line decides there. */
  private static final int LEAST_CORNER_CELLS = 5;

  private final int columns;
  private final int rows;
  private final List<OptionalDouble> blur;

  private FocusJudge(int columns, int rows, List<OptionalDouble> blur) {
    this.columns = columns;
    this.rows = rows;
    this.blur = blur;
  }

  static FocusMap judged(int columns, int rows, List<OptionalDouble> blurPx) {
    FocusJudge judge = new FocusJudge(columns, rows, blurPx);
    Optional<FocusMap.Tilt> tilt = judge.tilt();
    List<FocusMap.SoftCorner> corners = tilt.isPresent() ? List.of() : judge.corners();
    return new FocusMap(columns, rows, blurPx, judge.median(LEAST_CELLS, c -> true), tilt, corners);
  }

  /** The tilt of largest ratio; the part between both sides must lie between them. */
  private Optional<FocusMap.Tilt> tilt() {
    Optional<FocusMap.Tilt> most = Optional.empty();
    for (Side side : Side.values()) {
      OptionalDouble soft = third(side, 0);
      OptionalDouble middle = third(side, 1);
      OptionalDouble sharp = third(side, 2);
      if (soft.isEmpty() || middle.isEmpty() || sharp.isEmpty()) {
        continue;
      }
      double s = soft.getAsDouble();
      double o = sharp.getAsDouble();
      double m = middle.getAsDouble();
      boolean rises = m <= s && m >= o - 0.3;
      if (plain(s, o) && rises && most.map(t -> s > t.softPx()).orElse(true)) {
        most = Optional.of(new FocusMap.Tilt(side, s, o));
      }
    }
    return most;
  }

  private static boolean plain(double soft, double other) {
    return soft >= PLAIN_PX && soft >= TIMES * other && soft >= other + 0.7;
  }

  /** Median of a third of the field: 0 at the side, 1 in the middle, 2 opposite. */
  private OptionalDouble third(Side side, int which) {
    boolean across = side == Side.LEFT || side == Side.RIGHT;
    boolean fromEnd = side == Side.RIGHT || side == Side.BOTTOM;
    int n = across ? columns : rows;
    return median(
        LEAST_CELLS,
        c -> {
          int at = across ? c % columns : c / columns;
          int part = Math.min(2, 3 * at / n);
          return (fromEnd ? 2 - part : part) == which;
        });
  }

  private List<FocusMap.SoftCorner> corners() {
    List<FocusMap.SoftCorner> found = new ArrayList<>();
    OptionalDouble middle =
        median(
            LEAST_CELLS,
            c ->
                Math.abs((c % columns + 0.5) / columns - 0.5) < 0.25
                    && Math.abs((c / columns + 0.5) / rows - 0.5) < 0.25);
    if (middle.isEmpty()) {
      return found;
    }
    for (Corner corner : Corner.values()) {
      boolean right = corner == Corner.TOP_RIGHT || corner == Corner.BOTTOM_RIGHT;
      boolean low = corner == Corner.BOTTOM_LEFT || corner == Corner.BOTTOM_RIGHT;
      OptionalDouble soft =
          median(
              LEAST_CORNER_CELLS,
              c -> {
                double u = (c % columns + 0.5) / columns;
                double v = (c / columns + 0.5) / rows;
                return (right ? u > 0.72 : u < 0.28) && (low ? v > 0.72 : v < 0.28);
              });
      if (soft.isPresent() && plain(soft.getAsDouble(), middle.getAsDouble())) {
        found.add(new FocusMap.SoftCorner(corner, soft.getAsDouble(), middle.getAsDouble()));
      }
    }
    return found;
  }

  private OptionalDouble median(int least, IntPredicate cells) {
    double[] values = new double[blur.size()];
    int n = 0;
    for (int c = 0; c < blur.size(); c++) {
      if (blur.get(c).isPresent() && cells.test(c)) {
        values[n++] = blur.get(c).getAsDouble();
      }
    }
    if (n < least) {
      return OptionalDouble.empty();
    }
    Arrays.sort(values, 0, n);
    return OptionalDouble.of(values[n / 2]);
  }
}
