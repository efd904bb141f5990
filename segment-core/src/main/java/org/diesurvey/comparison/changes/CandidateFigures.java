package org.diesurvey.comparison.changes;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.LogicDistance;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileLooks;
import org.diesurvey.comparison.tiles.TileMoments;
import org.diesurvey.comparison.tiles.TileSet;

/**
 * Figures of a place that differs, from which {@link ChangeKindClassifier} tells whether and how it
 * changed: how both pictures look there and around it, how surely its tiles changed, its shape,
 * whether a block goes on beside it, and what the rules call it.
 */
final class CandidateFigures {
  /** Tiles around a place that belong to its surroundings, from where to where. */
  private static final int GAP = 2;

  private static final int WIDE = 6;

  private static final int KINDS = ChangeKind.values().length;

  /** Number of figures. */
  static final int SIZE = 55 + KINDS;

  private final TileComparison agreement;
  private final OfBoth<TileClasses> classes;
  private final OfBoth<float[]> block;
  private final BlockEnds ends;
  private final OfBoth<Blocks> blocks;

  CandidateFigures(CandidateLooks looks) {
    this.agreement = looks.agreement;
    this.classes = looks.classes;
    this.block = looks.block;
    this.ends = new BlockEnds(agreement, block);
    this.blocks = block.map(odds -> Blocks.of(agreement, odds));
  }

  /** One row, {@link #SIZE} long. */
  float[] of(ChangeCandidate place) {
    int columns = agreement.tiles.columns;
    TileSet at = place.ground();
    boolean[] in = at.mask();
    boolean[] core = TileSet.shrunk(in, columns, 1);
    boolean[] inside = none(core) ? in : core;
    boolean[] wide = TileSet.grown(in, columns, WIDE);
    boolean[] near = TileSet.grown(in, columns, GAP);
    boolean[] border = TileSet.grown(in, columns, 1);
    for (int i = 0; i < wide.length; i++) {
      wide[i] &= !near[i] && agreement.judged(i);
      border[i] &= !inside[i];
    }
    boolean[] around = none(wide) ? border : wide;
    Row r = new Row();
    double a = TileLooks.mean(block.first(), inside);
    double b = TileLooks.mean(block.second(), inside);
    r.add(a / 5, b / 5);
    r.add(block, odds -> TileLooks.mean(odds, in) / 5);
    r.add(block, odds -> TileLooks.mean(odds, around) / 5);
    r.add(agreement.looks, l -> TileLooks.mean(l.block, inside));
    r.add(agreement.ground, g -> distance(g, inside));
    double m = TileLooks.mean(agreement.looks.first().memory, inside);
    double n = TileLooks.mean(agreement.looks.second().memory, inside);
    r.add(m, n);
    r.add(Math.abs(m - n), Math.abs(a - b) / 5);
    r.add(block, odds -> at.share(i -> odds[i] > 0));
    r.add(TileLooks.mean(agreement.odds, in) / 3, TileLooks.mean(agreement.odds, inside) / 3);
    r.add(
        at.share(i -> agreement.odds[i] > ChangeFinder.SURE),
        at.share(i -> agreement.evidence.structured[i]));
    r.add(Math.log(at.count()) / 2, at.fill());
    int w = at.right() - at.left();
    int h = at.bottom() - at.top();
    r.add(Math.log(Math.min(w, h)), Math.log(Math.max(w, h) / (double) Math.min(w, h)));
    r.add(
        TileLooks.mean(agreement.similarity, inside) / agreement.typical, both(place, at.count()));
    r.add(ends.unlike(inside, around, true), ends.unlike(inside, around, false));
    r.add(ends.unlike(border, around, true), ends.unlike(border, around, false));
    BlockEnds.Beside beside = ends.beside(at, a >= b);
    r.add(beside.goesOn(), beside.seam() / 5);
    r.add(beside.unlike(), beside.borderUnlike());
    r.add(beside.ends() ? 1 : 0, at.share(i -> TileClasses.inRing(classes, i)));
    r.add(place.move() == null ? 0 : place.move().similarity() / agreement.typical, less(place));
    r.add(Math.min(a, b) / 5, Math.max(a, b) / 5);
    r.add(MemoryOdds.differ(m, n) ? 1 : 0, a > 0 && b > 0 ? Math.min(3, Math.abs(m - n)) : 0);
    r.add(blocks, all -> all.share(in));
    r.add(classes, c -> ofRegion(in, c));
    r.add(
        Math.min(
            3,
            TileMoments.distance(
                agreement.evidence.figures.first(), agreement.evidence.figures.second(), inside)));
    boolean[] onlyA = minus(place.inA(), place.inB());
    boolean[] onlyB = minus(place.inB(), place.inA());
    boolean[] kept = common(place.inA(), place.inB());
    r.add(TileLooks.mean(block.second(), onlyA) / 5, TileLooks.mean(block.first(), onlyB) / 5);
    r.add(count(onlyA) / (double) at.count(), count(onlyB) / (double) at.count());
    r.add(block, odds -> TileLooks.mean(odds, kept) / 5);
    r.add(
        TileLooks.mean(agreement.looks.first().memory, kept)
            - TileLooks.mean(agreement.looks.second().memory, kept),
        TileLooks.mean(agreement.odds, kept) / 3);
    for (ChangeKind k : ChangeKind.values()) {
      r.add(place.kind() == k ? 1 : 0);
    }
    return r.values;
  }

  /** Share of a place that is in it in both dies. */
  private static double both(ChangeCandidate p, int count) {
    if (p.inA() == null || p.inB() == null) {
      return 0;
    }
    int n = 0;
    for (int i = 0; i < p.inA().mask().length; i++) {
      n += p.inA().mask()[i] && p.inB().mask()[i] ? 1 : 0;
    }
    return n / (double) count;
  }

  /** Count of tiles in the die with fewer over that in the other. */
  private static double less(ChangeCandidate p) {
    if (p.inA() == null || p.inB() == null) {
      return 0;
    }
    double a = Math.max(1, p.inA().count());
    double b = Math.max(1, p.inB().count());
    return Math.min(a, b) / Math.max(a, b);
  }

  private static boolean[] minus(TileSet p, TileSet q) {
    boolean[] out = p == null ? new boolean[q.mask().length] : p.mask().clone();
    for (int i = 0; q != null && i < out.length; i++) {
      out[i] &= !q.mask()[i];
    }
    return out;
  }

  private static boolean[] common(TileSet p, TileSet q) {
    boolean[] out = (p == null ? q : p).mask().clone();
    for (int i = 0; i < out.length; i++) {
      out[i] &= p != null && q != null && q.mask()[i];
    }
    return out;
  }

  private static int count(boolean[] mask) {
    int n = 0;
    for (boolean b : mask) {
      n += b ? 1 : 0;
    }
    return n;
  }

  /** The blocks of one picture. */
  private static final class Blocks {
    /** Of the block at each tile, the largest first; -1 where none is. */
    private final int[] number;

    /** How many each has. */
    private final int[] tiles;

    private Blocks(int[] number, int[] tiles) {
      this.number = number;
      this.tiles = tiles;
    }

    static Blocks of(TileComparison agreement, float[] odds) {
      int columns = agreement.tiles.columns;
      boolean[] block = new boolean[odds.length];
      for (int i = 0; i < block.length; i++) {
        block[i] = odds[i] > 0 && agreement.judged(i);
      }
      List<TileSet> parts = TileSet.parts(TileSet.opened(block, columns, 1), columns);
      int[] number = new int[odds.length];
      Arrays.fill(number, -1);
      for (int k = 0; k < parts.size(); k++) {
        for (int i = 0; i < number.length; i++) {
          number[i] = parts.get(k).mask()[i] ? k : number[i];
        }
      }
      return new Blocks(number, parts.stream().mapToInt(TileSet::count).toArray());
    }

    /** Share that a place has of the block where it mostly lies; 0 where none is. */
    double share(boolean[] in) {
      int[] inside = new int[tiles.length];
      for (int i = 0; i < in.length; i++) {
        if (in[i] && number[i] >= 0) {
          inside[number[i]]++;
        }
      }
      int best = most(inside);
      return best < 0 ? 0 : inside[best] / (double) tiles[best];
    }
  }

  /** Share that the place has of the region of one survey where it mostly lies, if a block. */
  private static double ofRegion(boolean[] in, TileClasses classes) {
    int[] inside = new int[classes.survey.regions().size()];
    int[] all = new int[inside.length];
    for (int i = 0; i < in.length; i++) {
      int r = classes.region[i];
      if (r >= 0) {
        all[r]++;
        inside[r] += in[i] ? 1 : 0;
      }
    }
    int best = most(inside);
    return best < 0 || !TileClasses.isBlock(classes.survey.regions().get(best).dieClass())
        ? 0
        : inside[best] / (double) all[best];
  }

  /** Place of the first of the highest counts; -1 where all are 0. */
  private static int most(int[] counts) {
    int best = -1;
    for (int k = 0; k < counts.length; k++) {
      best = counts[k] > (best < 0 ? 0 : counts[best]) ? k : best;
    }
    return best;
  }

  private static boolean none(boolean[] mask) {
    for (boolean b : mask) {
      if (b) {
        return false;
      }
    }
    return true;
  }

  private static double distance(LogicDistance ground, boolean[] of) {
    if (!ground.known()) {
      return 0;
    }
    double sum = 0;
    int n = 0;
    for (int i = 0; i < of.length; i++) {
      if (of[i]) {
        sum += Math.log(Math.max(CandidateLooks.LEAST_DISTANCE, ground.at(i)));
        n++;
      }
    }
    return sum / Math.max(1, n);
  }

  /** Fills a row from the left. */
  private static final class Row {
    private final float[] values = new float[SIZE];
    private int at;

    void add(double value) {
      values[at++] = (float) value;
    }

    void add(double first, double second) {
      add(first);
      add(second);
    }

    <T> void add(OfBoth<T> both, ToDoubleFunction<T> figure) {
      add(figure.applyAsDouble(both.first()), figure.applyAsDouble(both.second()));
    }
  }
}
