package org.diesurvey.comparison.registration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.document.Orientation;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * The layout of a surveyed die in brief: the class at each place of a coarse grid over the die, and
 * the die's size. Two signatures are held against each other in all eight orientations; a size or
 * aspect that differs a little is allowed, since revisions grow.
 */
public final class LayoutSignature {
  /** Samples along a side; {@link #BLOCK} of them are one cell. */
  private static final int SAMPLES = 96;

  private static final int BLOCK = 3;
  private static final int CELLS = SAMPLES / BLOCK;
  private static final int CLASSES = 5;

  /** How far sizes of revisions may scatter, as a standard deviation of the logarithm; chosen. */
  private static final double SIZE_SCATTER = 0.2;

  private static final double ASPECT_SCATTER = 0.15;

  /** Sides that differ by more than this are also compared at true scale. */
  private static final double SAME_SIDE = 0.02;

  /**
   * Corners for dies that have grown, the middle for photographs whose die edge was not found and
   * that were surveyed whole.
   */
  private static final double[][] ANCHORS = {{0, 0}, {1, 0}, {0, 1}, {1, 1}, {0.5, 0.5}};

  /** Classes of the samples, row by row from the lower left, as seen with y up. */
  private final byte[] labels;

  private final double width;
  private final double height;
  private final boolean scaled;

  private LayoutSignature(byte[] labels, double width, double height, boolean scaled) {
    this.labels = labels;
    this.width = width;
    this.height = height;
    this.scaled = scaled;
  }

  /**
   * How alike two layouts are.
   *
   * @param score 1 for the same, about 0 for what chance gives, at most 1
   * @param orientation how the second lies on the first
   */
  public record Likeness(double score, Orientation orientation) {}

  /** The signature of a survey; areas without a region count as a class of their own. */
  public static LayoutSignature of(Survey survey) {
    DieFrame die = survey.die();
    Point a = die.outlinePx().get(0);
    Point b = die.outlinePx().get(1);
    Point d = die.outlinePx().get(3);
    double ux = b.x() - a.x();
    double uy = b.y() - a.y();
    double vx = d.x() - a.x();
    double vy = d.y() - a.y();
    double det = ux * vy - uy * vx;
    byte[] labels = new byte[SAMPLES * SAMPLES];
    for (SurveyRegion region : survey.regions()) {
      byte code = code(region.dieClass());
      if (code == 0) {
        continue;
      }
      List<double[]> rings = new ArrayList<>();
      Outline outline = region.inPhoto().outline();
      List<List<Point>> all = new ArrayList<>(List.of(outline.shell()));
      all.addAll(outline.holes());
      for (List<Point> ring : all) {
        double[] unit = new double[2 * ring.size()];
        for (int i = 0; i < ring.size(); i++) {
          double x = ring.get(i).x() - a.x();
          double y = ring.get(i).y() - a.y();
          unit[2 * i] = SAMPLES * (x * vy - y * vx) / det;
          unit[2 * i + 1] = SAMPLES * (ux * y - uy * x) / det;
        }
        rings.add(unit);
      }
      fill(labels, rings, code);
    }
    Optional<Measured> w = die.widthMm();
    Optional<Measured> h = die.heightMm();
    boolean scaled = w.isPresent() && h.isPresent();
    return new LayoutSignature(
        labels,
        scaled ? w.get().value() : Math.hypot(ux, uy),
        scaled ? h.get().value() : Math.hypot(vx, vy),
        scaled);
  }

  private static byte code(DieClass c) {
    return switch (c) {
      case MEMORY_ARRAY -> 1;
      case HARD_MACRO -> 2;
      case LOGIC -> 3;
      case PAD_RING -> 4;
      default -> 0;
    };
  }

  /** Labels the samples inside rings (even and odd crossings of each row of samples). */
  private static void fill(byte[] labels, List<double[]> rings, byte code) {
    for (int row = 0; row < SAMPLES; row++) {
      double y = row + 0.5;
      List<Double> crossings = new ArrayList<>();
      for (double[] ring : rings) {
        int n = ring.length / 2;
        for (int i = 0; i < n; i++) {
          int j = (i + 1) % n;
          double y0 = ring[2 * i + 1];
          double y1 = ring[2 * j + 1];
          if (y0 > y != y1 > y) {
            crossings.add(ring[2 * i] + (y - y0) / (y1 - y0) * (ring[2 * j] - ring[2 * i]));
          }
        }
      }
      double[] at = crossings.stream().mapToDouble(Double::doubleValue).sorted().toArray();
      for (int i = 0; i + 1 < at.length; i += 2) {
        int from = Math.max(0, (int) Math.ceil(at[i] - 0.5));
        int to = Math.min(SAMPLES, (int) Math.ceil(at[i + 1] - 0.5));
        if (from < to) {
          Arrays.fill(labels, row * SAMPLES + from, row * SAMPLES + to, code);
        }
      }
    }
  }

  /**
   * Holds another signature against this one.
   *
   * @param second the other, for example of a later revision
   */
  public Likeness likeness(LayoutSignature second) {
    Likeness best = new Likeness(-1, Orientation.R0);
    for (Orientation o : Orientation.values()) {
      double w = o.swapsSides() ? second.height : second.width;
      double h = o.swapsSides() ? second.width : second.height;
      double aspect = Math.log(w / h * height / width);
      double size = scaled && second.scaled ? 0.5 * Math.log(w * h / (width * height)) : 0;
      double weight =
          Math.exp(-0.5 * square(aspect / ASPECT_SCATTER) - 0.5 * square(size / SIZE_SCATTER));
      double score = agreement(second, o, 0, 0, 1, 1);
      boolean sidesDiffer =
          Math.abs(w / width - 1) > SAME_SIDE || Math.abs(h / height - 1) > SAME_SIDE;
      if (scaled && second.scaled && sidesDiffer) {
        for (double[] anchor : ANCHORS) {
          double x0 = anchor[0] * (1 - w / width);
          double y0 = anchor[1] * (1 - h / height);
          score = Math.max(score, agreement(second, o, x0, y0, w / width, h / height));
        }
      }
      if (score * weight > best.score) {
        best = new Likeness(score * weight, o);
      }
    }
    return best;
  }

  private static double square(double v) {
    return v * v;
  }

  /**
   * Agreement beyond chance, (po - pe) / (1 - pe) (kappa of Cohen, Educational and Psychological
   * Measurement 20 (1960) 37; from memory), with the shares of the classes in each cell in place of
   * single judgements, times the root of the share of ground that both have.
   *
   * @param x0 where the left side of the second die lies on this one, as a share of the width
   * @param y0 the same for the lower side
   * @param w width of the second die in widths of this one
   * @param h the same for the height
   */
  private double agreement(
      LayoutSignature second, Orientation o, double x0, double y0, double w, double h) {
    double[] total = new double[CLASSES];
    double[] totalSecond = new double[CLASSES];
    int[] mine = new int[CLASSES];
    int[] theirs = new int[CLASSES];
    double agreed = 0;
    int common = 0;
    for (int row = 0; row < CELLS; row++) {
      for (int column = 0; column < CELLS; column++) {
        Arrays.fill(mine, 0);
        Arrays.fill(theirs, 0);
        int seen = 0;
        for (int k = 0; k < BLOCK * BLOCK; k++) {
          int i = column * BLOCK + k % BLOCK;
          int j = row * BLOCK + k / BLOCK;
          double u = ((i + 0.5) / SAMPLES - x0) / w - 0.5;
          double v = ((j + 0.5) / SAMPLES - y0) / h - 0.5;
          int p = (int) Math.floor((o.xx() * u + o.xy() * v + 0.5) * SAMPLES);
          int q = (int) Math.floor((o.yx() * u + o.yy() * v + 0.5) * SAMPLES);
          if (p < 0 || q < 0 || p >= SAMPLES || q >= SAMPLES) {
            continue;
          }
          seen++;
          mine[labels[j * SAMPLES + i]]++;
          theirs[second.labels[q * SAMPLES + p]]++;
        }
        common += seen;
        for (int c = 0; c < CLASSES; c++) {
          agreed += Math.min(mine[c], theirs[c]);
          total[c] += mine[c];
          totalSecond[c] += theirs[c];
        }
      }
    }
    if (common == 0) {
      return 0;
    }
    double chance = 0;
    for (int c = 0; c < CLASSES; c++) {
      chance += total[c] / common * totalSecond[c] / common;
    }
    double observed = agreed / common;
    double kappa = chance > 0.999 ? 0 : (observed - chance) / (1 - chance);
    double mineShare = (double) common / (SAMPLES * SAMPLES);
    double theirShare = Math.min(1, mineShare / (w * h));
    return kappa * Math.sqrt(Math.min(mineShare, theirShare));
  }
}
