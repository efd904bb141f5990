package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.features.damage.DamageTuning;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.FlatField;
import org.diesurvey.survey.ScaleRecord.InferredRange;
import org.diesurvey.tiles.TileGrid;

/**
 * A photograph looked at under its pitch and, without a scale, as if it had several. The texture
 * does not tell the pitch (on 200 drawn dies a regression on all features was off by a factor of
 * 1.6 in the mean, no better than the usual pitch of photographs), but what a block is does not
 * hang on it much: so the probabilities of all views are averaged, those of a view that is surer of
 * its tiles with more weight. Good for classes, never for areas.
 *
 * @param tiled the die under the surest view
 * @param features of that view; to be closed by whoever asked
 * @param evidence averaged over the views, on the tiles of that view, before lattices
 * @param lattices of all views that may show one; none at a usual pitch that is known
 * @param range of pitches about that of the surest view; empty if the pitch is known
 */
record PitchHypotheses(
    TiledDie tiled,
    FeatureTable features,
    TileProbabilities evidence,
    List<LatticeStrength> lattices,
    Optional<InferredRange> range) {
  private static final double[] PITCHES_UM = {0.06, 0.11, 0.2, 0.36, 0.65, 1.2, 2.2};

  /** Scatter of the pitch about a guess from the texture, as a factor: 0.8 octaves. */
  private static final double SCATTER = 1.75;

  /**
   * Difference of the mean probability of the best classes that divides a weight by e. On 30 drawn
   * dies of the wide and the ordinary style 0.005, 0.02, 0.08, 0.16 and equal weights name 64.8,
   * 65.3, 66.0, 66.4 and 66.5 % of the tiles rightly.
   */
  private static final double SURER = 0.16;

  /**
   * Photographs sampled finer than this, um/px, show few cells in a window of so many um: they are
   * looked at in their own measure as well.
   */
  private static final double MAGNIFIED_UM = 0.3;

  /** Weight of the view at the true pitch, over that of all others together (own choice). */
  private static final double TRUE_VIEW = 0.7;

  /** With fewer tiles there are no surroundings to judge by. */
  private static final int LEAST_TILES = 400;

  /** With more the features fill the memory. */
  private static final int MOST_TILES = 300_000;

  /** The die as if it had a pitch. */
  private record Seen(double pitchUm, TiledDie tiled) {}

  /** One view, without its features. */
  private record View(TileProbabilities tiles, double sureness) {}

  static PitchHypotheses of(
      PixelSource source,
      DieLocation frame,
      TileClassifier classifier,
      double tileUm,
      Optional<FlatField> flat,
      DamageTuning damage) {
    List<View> views = new ArrayList<>();
    List<LatticeStrength> lattices = new ArrayList<>();
    TiledDie surest = null;
    FeatureTable features = null;
    View top = null;
    double at = 0;
    TiledDie first = TiledDie.of(source, frame, PITCHES_UM[0], tileUm, flat);
    for (Seen seen : seen(first, tileUm)) {
      TiledDie tiled = seen.tiled();
      FeatureTable table = FeatureTable.extract(tiled.die(), tiled.grid(), damage);
      TileProbabilities tiles = classifier.classify(table, frame.realEdges());
      View view = new View(tiles, sureness(tiles));
      views.add(view);
      lattices.add(LatticeStrength.of(table));
      if (top == null || view.sureness() > top.sureness()) {
        if (features != null) {
          features.close();
        }
        surest = tiled;
        features = table;
        top = view;
        at = seen.pitchUm();
      } else {
        table.close();
      }
    }
    return new PitchHypotheses(
        surest,
        features,
        averaged(views, top),
        lattices,
        Optional.of(
            new InferredRange(
                at / SCATTER,
                at * SCATTER,
                "the pitch at which the model is surest of the texture")));
  }

  /**
   * What the tiles are, if the pitch is known: at usual samplings by the view at that pitch alone,
   * in magnified pictures by all views, so that a lattice of large cells counts whatever its size.
   *
   * @param known the die at its true pitch
   * @param features at that pitch
   * @param tiles what they are at that pitch
   */
  static PitchHypotheses withKnownPitch(
      TileClassifier classifier,
      double pitchUm,
      TiledDie known,
      FeatureTable features,
      TileProbabilities tiles,
      DamageTuning damage) {
    if (pitchUm >= MAGNIFIED_UM) {
      return new PitchHypotheses(known, features, tiles, List.of(), Optional.empty());
    }
    List<View> views = new ArrayList<>();
    List<LatticeStrength> lattices = new ArrayList<>();
    for (Seen seen : seen(known, known.grid().tileUm())) {
      TiledDie tiled = seen.tiled();
      try (FeatureTable table = FeatureTable.extract(tiled.die(), tiled.grid(), damage)) {
        TileProbabilities there = classifier.classify(table, known.die().frame().realEdges());
        views.add(new View(there, 1));
        lattices.add(LatticeStrength.of(table));
      }
    }
    View here = new View(tiles, 1);
    return new PitchHypotheses(
        known, features, mixed(tiles, averaged(views, here)), lattices, Optional.empty());
  }

  private static TileProbabilities mixed(TileProbabilities known, TileProbabilities others) {
    int n = known.grid().count();
    float[] values = new float[n * SurfaceClass.COUNT];
    float[] strangeness = new float[n];
    float share = (float) (TRUE_VIEW / (1 + TRUE_VIEW));
    for (int t = 0; t < n; t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        values[t * SurfaceClass.COUNT + c.ordinal()] =
            share * known.get(t, c) + (1 - share) * others.get(t, c);
      }
      strangeness[t] = known.strangeness(t);
    }
    return new TileProbabilities(known.grid(), values, strangeness);
  }

  /** The die under the pitches at which it has neither too few nor too many tiles. */
  private static List<Seen> seen(TiledDie any, double tileUm) {
    List<Seen> fit = new ArrayList<>();
    Seen largest = null;
    for (double pitch : PITCHES_UM) {
      Seen seen = new Seen(pitch, any.atPitch(pitch, tileUm));
      int tiles = seen.tiled().grid().count();
      if (largest == null || tiles <= MOST_TILES) {
        largest = seen;
      }
      if (tiles >= LEAST_TILES && tiles <= MOST_TILES) {
        fit.add(seen);
      }
    }
    return fit.isEmpty() ? List.of(largest) : fit;
  }

  /** Mean over the tiles of the probability of the best class. */
  private static double sureness(TileProbabilities tiles) {
    double sum = 0;
    int n = tiles.grid().count();
    for (int t = 0; t < n; t++) {
      sum += tiles.get(t, tiles.best(t));
    }
    return sum / n;
  }

  private static TileProbabilities averaged(List<View> views, View top) {
    TileGrid grid = top.tiles().grid();
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    float[] strangeness = new float[grid.count()];
    double all = 0;
    for (View v : views) {
      all += weight(v, top);
    }
    for (View v : views) {
      float share = (float) (weight(v, top) / all);
      for (int t = 0; t < grid.count(); t++) {
        int there = same(grid, t, v.tiles().grid());
        for (SurfaceClass c : SurfaceClass.values()) {
          values[t * SurfaceClass.COUNT + c.ordinal()] += share * v.tiles().get(there, c);
        }
        strangeness[t] += share * v.tiles().strangeness(there);
      }
    }
    return new TileProbabilities(grid, values, strangeness);
  }

  /** What the tiles are: bit cells are likely wherever one of the views shows a plain lattice. */
  TileProbabilities tiles(LatticeTuning tuning) {
    if (lattices.isEmpty()) {
      return evidence;
    }
    List<PlainLattice> shown = lattices.stream().map(s -> PlainLattice.of(s, tuning)).toList();
    TileGrid grid = evidence.grid();
    float pull = (float) tuning.pull();
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    float[] strangeness = new float[grid.count()];
    for (int t = 0; t < grid.count(); t++) {
      boolean plain = false;
      for (int v = 0; v < shown.size(); v++) {
        plain |= shown.get(v).holds(same(grid, t, lattices.get(v).grid()));
      }
      for (SurfaceClass c : SurfaceClass.values()) {
        float p = evidence.get(t, c);
        float certain = c == SurfaceClass.BIT_CELLS ? 1 : 0;
        values[t * SurfaceClass.COUNT + c.ordinal()] = plain ? p + pull * (certain - p) : p;
      }
      strangeness[t] = evidence.strangeness(t);
    }
    return new TileProbabilities(grid, values, strangeness);
  }

  private static double weight(View v, View top) {
    return StrictMath.exp((v.sureness() - top.sureness()) / SURER);
  }

  /** The tile of another grid over the same die that holds the middle of a tile. */
  private static int same(TileGrid grid, int tile, TileGrid other) {
    double x = (tile % grid.columns() + 0.5) * grid.tilePx() / grid.width();
    double y = (tile / grid.columns() + 0.5) * grid.tilePx() / grid.height();
    int column = (int) Math.min(other.columns() - 1, x * other.width() / other.tilePx());
    int row = (int) Math.min(other.rows() - 1, y * other.height() / other.tilePx());
    return row * other.columns() + column;
  }
}
