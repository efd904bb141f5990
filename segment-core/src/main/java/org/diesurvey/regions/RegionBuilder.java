package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.classification.model.RegionConfidence;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.regions.ring.BondPadFinder;
import org.diesurvey.regions.ring.BondPads;
import org.diesurvey.regions.ring.PadRing;
import org.diesurvey.regions.ring.PadRingFinder;
import org.diesurvey.regions.ring.RingStrip;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * From tile evidence to the die's regions: the pad ring by structure, then the blocks inside it.
 */
public final class RegionBuilder {
  /** Probability that a flat plate in bare ground is a macro: 8 of 11 on 200 drawn dies. */
  private static final double PLATE = 0.7;

  private final TileProbabilities probabilities;
  private final TileGrid grid;
  private final FeatureTable features;
  private final EdgeSnapper snapper;
  private final PadRing ring;
  private final Polygon outer;
  private final RegionConfidence confidence;
  private final CoreLabelling labels;
  private final RegionTuning tuning;

  private RegionBuilder(
      TileProbabilities probabilities,
      FeatureTable features,
      RegionConfidence confidence,
      PadRing ring,
      CoreLabelling labels,
      RegionTuning tuning) {
    this.probabilities = probabilities;
    this.grid = probabilities.grid();
    this.features = features;
    this.snapper = new EdgeSnapper(features.fine(), grid, tuning.outlines());
    this.ring = ring;
    this.outer = outer(ring, grid);
    this.confidence = confidence;
    this.labels = labels;
    this.tuning = tuning;
  }

  /**
   * Forms the regions.
   *
   * @param forRing evidence of single tiles, by which the pad ring is found
   * @param probabilities evidence by which the blocks inside it are formed and judged
   * @param confidence of the model that gave the probabilities
   * @param onDie tiles that show the die (a turned photograph without a die edge has corners that
   *     show nothing)
   * @param realEdges sides where the grid's border is the die's edge, so that a pad ring can be
   *     looked for along them
   * @param tuning what decides classes and outlines
   * @return regions without overlaps, in the order memory, macro, logic, pad ring, unclear, each
   *     largest first
   */
  public static List<DieRegion> of(
      TileProbabilities forRing,
      TileProbabilities probabilities,
      FeatureTable features,
      RegionConfidence confidence,
      boolean[] onDie,
      List<DieSide> realEdges,
      RegionTuning tuning) {
    TileGrid grid = probabilities.grid();
    PadRing ring =
        realEdges.isEmpty()
            ? PadRing.NONE
            : new PadRingFinder(forRing, features, realEdges, tuning.ring()).find();
    boolean[] inside = onDie.clone();
    for (int t = 0; t < inside.length; t++) {
      double x = (t % grid.columns() + 0.5) * grid.tilePx();
      double y = (t / grid.columns() + 0.5) * grid.tilePx();
      inside[t] &=
          x > ring.left()
              && y > ring.upper()
              && x < grid.width() - ring.right()
              && y < grid.height() - ring.lower();
    }
    CoreLabelling labels =
        CoreLabelling.of(probabilities, features, inside, !ring.present(), tuning);
    return new RegionBuilder(probabilities, features, confidence, ring, labels, tuning).regions();
  }

  private List<DieRegion> regions() {
    List<DieRegion> out = new ArrayList<>();
    List<Geometry> taken = new ArrayList<>();
    blocks(DieClass.MEMORY_ARRAY, out, taken, 2, SurfaceClass.BIT_CELLS, SurfaceClass.PERIPHERY);
    blocks(DieClass.HARD_MACRO, out, taken, 1, SurfaceClass.MACRO);
    blocks(DieClass.LOGIC, out, taken, 0, SurfaceClass.CELL_ROWS);
    blocks(DieClass.PAD_RING, out, taken, 1, SurfaceClass.IO_CELLS);
    out.addAll(ringRegions());
    out.addAll(margin());
    blocks(DieClass.UNCLEAR, out, taken, 0, SurfaceClass.BARE);
    // Regions that turned out undecided stand with the unclear ones.
    out.sort(
        Comparator.comparingInt((DieRegion r) -> r.dieClass().code())
            .thenComparing(r -> -r.outline().getArea()));
    return out;
  }

  private boolean is(int tile, SurfaceClass... classes) {
    for (SurfaceClass c : classes) {
      if (labels.label(tile) == c.ordinal()) {
        return true;
      }
    }
    return false;
  }

  private void blocks(
      DieClass dieClass,
      List<DieRegion> out,
      List<Geometry> taken,
      int closing,
      SurfaceClass... classes) {
    byte[] m = new byte[grid.count()];
    for (int t = 0; t < m.length; t++) {
      m[t] = (byte) (is(t, classes) ? 1 : 0);
    }
    LabelRaster mask = LabelRaster.over(grid.columns(), grid.rows(), m);
    LabelRaster closed = Morphology.close(mask, closing);
    // The closing also joins memories that stand corner to corner.
    Components.Labelling parts =
        dieClass == DieClass.MEMORY_ARRAY
            ? Components.partedAtNecks(closed, closing)
            : Components.label(closed);
    List<DieRegion> found = new ArrayList<>();
    for (Components.Component c : parts.components()) {
      shape(dieClass, parts, c, classes, taken, found);
    }
    found.sort((a, b) -> Double.compare(b.outline().getArea(), a.outline().getArea()));
    // One geometry of all that is taken, so that each later block is cut once.
    List<Geometry> all = new ArrayList<>(taken);
    found.forEach(r -> all.add(r.outline()));
    taken.clear();
    if (!all.isEmpty()) {
      taken.add(TileShapes.areas(UnaryUnionOp.union(all)));
    }
    out.addAll(found);
  }

  private void shape(
      DieClass dieClass,
      Components.Labelling parts,
      Components.Component c,
      SurfaceClass[] classes,
      List<Geometry> taken,
      List<DieRegion> found) {
    boolean block = dieClass == DieClass.MEMORY_ARRAY || dieClass == DieClass.HARD_MACRO;
    for (Polygon raw : polygons(parts, c, block)) {
      Geometry g = clipToCore(snapper.snap(raw));
      if (!taken.isEmpty()) {
        g = g.difference(taken.get(0));
      }
      for (Polygon p : TileShapes.parts(g)) {
        if (p.getArea() < 2 * grid.tilePx() * grid.tilePx()) {
          continue;
        }
        List<Polygon> arrays = dieClass == DieClass.MEMORY_ARRAY ? arrays(parts, c, p) : List.of();
        found.add(region(dieClass, parts, c, p, arrays, classes));
      }
    }
  }

  private Geometry clipToCore(Polygon p) {
    if (!ring.present()) {
      return p;
    }
    return TileShapes.areas(p.intersection(inner()));
  }

  private Polygon inner() {
    return TileShapes.rectangle(
        ring.left(), ring.upper(), grid.width() - ring.right(), grid.height() - ring.lower());
  }

  /** Outside of the ring; a side without a ring has no margin. */
  private static Polygon outer(PadRing ring, TileGrid grid) {
    return TileShapes.rectangle(
        ring.left() > 0 ? ring.margin() : 0,
        ring.upper() > 0 ? ring.margin() : 0,
        grid.width() - (ring.right() > 0 ? ring.margin() : 0),
        grid.height() - (ring.lower() > 0 ? ring.margin() : 0));
  }

  private boolean inMargin(int tile) {
    double x = (tile % grid.columns() + 0.5) * grid.tilePx();
    double y = (tile / grid.columns() + 0.5) * grid.tilePx();
    Envelope within = outer.getEnvelopeInternal();
    return !within.contains(x, y);
  }

  /** Bare ground between the die edge and a ring that lies inside it. */
  private List<DieRegion> margin() {
    if (ring.margin() == 0) {
      return List.of();
    }
    Map<DieClass, Double> sum = new EnumMap<>(DieClass.class);
    int tiles = 0;
    for (int t = 0; t < grid.count(); t++) {
      if (inMargin(t)) {
        tiles++;
        add(sum, t);
      }
    }
    int n = tiles;
    double bare = sum.getOrDefault(DieClass.UNCLEAR, 0.0) / Math.max(1, n);
    Geometry frame = TileShapes.rectangle(0, 0, grid.width(), grid.height()).difference(outer);
    return TileShapes.parts(frame).stream()
        .map(
            part ->
                new DieRegion(
                    DieClass.UNCLEAR,
                    Optional.of(UnclearReason.EMPTY),
                    part,
                    List.of(),
                    mean(sum, n),
                    bare,
                    n,
                    Optional.empty()))
        .toList();
  }

  private List<Polygon> arrays(
      Components.Labelling parts, Components.Component c, Polygon outline) {
    byte[] m = new byte[grid.count()];
    for (int t = 0; t < m.length; t++) {
      m[t] = (byte) (parts.ids()[t] == c.id() && is(t, SurfaceClass.BIT_CELLS) ? 1 : 0);
    }
    LabelRaster cells = Morphology.close(LabelRaster.over(grid.columns(), grid.rows(), m), 1);
    Components.Labelling inner = Components.label(cells);
    List<Polygon> out = new ArrayList<>();
    for (Components.Component a : inner.components()) {
      if (a.cells() < 6) {
        continue;
      }
      for (Polygon raw : polygons(inner, a, true)) {
        // Each array is snapped by itself, so the sides of two may come to cross.
        Geometry own = TileShapes.areas(snapper.snap(raw).intersection(outline));
        for (Polygon other : out) {
          own = TileShapes.areas(own.difference(other));
        }
        out.addAll(TileShapes.parts(own));
      }
    }
    return out;
  }

  /**
   * Outlines of a component along its tiles.
   *
   * @param block whether one that nearly fills its bounds is a rectangle
   */
  private List<Polygon> polygons(
      Components.Labelling parts, Components.Component c, boolean block) {
    PixelRect b = c.bounds();
    boolean asRectangle =
        block && c.cells() >= tuning.outlines().rectangleFill() * b.width() * b.height();
    return TileShapes.polygons(
        grid,
        b.y(),
        b.y() + b.height(),
        b.x(),
        b.x() + b.width(),
        (r, col) -> asRectangle || parts.ids()[r * grid.columns() + col] == c.id());
  }

  private DieRegion region(
      DieClass dieClass,
      Components.Labelling parts,
      Components.Component c,
      Polygon outline,
      List<Polygon> arrays,
      SurfaceClass[] classes) {
    Map<DieClass, Double> sum = new EnumMap<>(DieClass.class);
    int tiles = 0;
    int x1 = c.bounds().x() + c.bounds().width();
    int y1 = c.bounds().y() + c.bounds().height();
    for (int y = c.bounds().y(); y < y1; y++) {
      for (int x = c.bounds().x(); x < x1; x++) {
        int t = y * grid.columns() + x;
        if (parts.ids()[t] == c.id()) {
          tiles++;
          add(sum, t);
        }
      }
    }
    if (dieClass == DieClass.HARD_MACRO || dieClass == DieClass.LOGIC) {
      withoutMemory(sum, tiles);
    }
    Map<DieClass, Double> mean = mean(sum, tiles);
    double meanProbability =
        dieClass == DieClass.UNCLEAR
            ? sum.getOrDefault(DieClass.UNCLEAR, 0.0) / Math.max(1, tiles)
            : mean.getOrDefault(dieClass, 0.0);
    double sure = confidence.of(dieClass, meanProbability, tiles);
    boolean undecided = dieClass != DieClass.UNCLEAR && sure < tuning.patches().undecidedBelow();
    Optional<UnclearReason> reason =
        undecided
            ? Optional.of(UnclearReason.UNDECIDED)
            : dieClass == DieClass.UNCLEAR ? Optional.of(UnclearReason.EMPTY) : Optional.empty();
    return new DieRegion(
        undecided ? DieClass.UNCLEAR : dieClass,
        reason,
        outline,
        undecided ? List.of() : arrays,
        mean,
        sure,
        tiles,
        Optional.empty());
  }

  /** Adds the evidence of a tile: that of its plate if it lies in one. */
  private void add(Map<DieClass, Double> sum, int tile) {
    if (labels.plate(tile)) {
      sum.merge(DieClass.HARD_MACRO, PLATE, Double::sum);
      sum.merge(DieClass.UNCLEAR, 1 - PLATE, Double::sum);
      return;
    }
    for (SurfaceClass s : SurfaceClass.values()) {
      sum.merge(s.dieClass(), (double) probabilities.get(tile, s), Double::sum);
    }
  }

  /**
   * Takes memory out of the evidence for a block that was found to be none: bit cells are too few
   * in it, so what speaks for them and their periphery speaks for the rest in proportion.
   */
  private static void withoutMemory(Map<DieClass, Double> sum, int tiles) {
    double rest = tiles - sum.getOrDefault(DieClass.MEMORY_ARRAY, 0.0);
    sum.remove(DieClass.MEMORY_ARRAY);
    if (rest > 0) {
      sum.replaceAll((c, v) -> v * tiles / rest);
    }
  }

  /** What is missing to a sum of 1 speaks for bare ground. */
  private static Map<DieClass, Double> mean(Map<DieClass, Double> sum, int tiles) {
    Map<DieClass, Double> out = new EnumMap<>(DieClass.class);
    for (DieClass c :
        List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.PAD_RING)) {
      out.put(c, sum.getOrDefault(c, 0.0) / Math.max(1, tiles));
    }
    return out;
  }

  /** Bond pads or I/O cells on all sides of the ring. */
  private Optional<BondPads> bondPads() {
    FineMap fine = features.fine();
    return new BondPadFinder(fine, grid.tilePx() / FineMap.PER_TILE)
        .find(RingStrip.of(fine, grid, ring));
  }

  /** One region; two if a photograph that cuts the die leaves two strips on opposite sides. */
  private List<DieRegion> ringRegions() {
    if (!ring.present()) {
      return List.of();
    }
    Geometry g = outer.difference(inner());
    Map<DieClass, Double> sum = new EnumMap<>(DieClass.class);
    int tiles = 0;
    for (int t = 0; t < grid.count(); t++) {
      if (labels.label(t) != CoreLabelling.OUTSIDE || inMargin(t)) {
        continue;
      }
      tiles++;
      add(sum, t);
    }
    Map<DieClass, Double> mean = mean(sum, tiles);
    List<Polygon> parts = TileShapes.parts(g);
    Optional<BondPads> counted = bondPads();
    List<DieRegion> out = new ArrayList<>();
    for (Polygon part : parts) {
      out.add(
          new DieRegion(
              DieClass.PAD_RING,
              Optional.empty(),
              part,
              List.of(),
              mean,
              confidence.of(DieClass.PAD_RING, mean.get(DieClass.PAD_RING), tiles),
              tiles,
              // Counted over all sides, so it is told once.
              out.isEmpty() ? counted : Optional.empty()));
    }
    return out;
  }
}
