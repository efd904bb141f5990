package org.diesurvey.pipeline;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.training.TaughtTiles;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;

/**
 * The tiles of a photograph that lie wholly inside outlines drawn by a person, with the texture
 * that the outline's class means: samples to teach a model with. Unclear outlines count only where
 * their reason is EMPTY.
 */
public final class OutlineTiles {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  private OutlineTiles() {}

  /**
   * Prepares the photograph like one that is surveyed and labels its tiles; runs on the calling
   * thread's fork-join pool.
   *
   * @param base decides in memories which tiles are cells and which are periphery; where it sees no
   *     memory, the outlines of bit-cell arrays decide, if there are any
   * @throws DieInputException if the photograph or the outlines cannot be used, or there is no
   *     scale
   */
  public static TaughtTiles of(
      DiePhoto photo, ScaleInput input, HandOutlines outlines, double tileUm, TileClassifier base) {
    OutlineChecks.requirePhoto(outlines.photo(), photo.info().sha256(), outlines.fileName());
    photo.requireContent();
    DieLocation frame = PreparedDie.locate(photo.pixels());
    Calibration scale =
        Scales.resolve(input, frame, photo.info().fileName())
            .orElseThrow(
                () ->
                    new DieInputException(
                        Reason.SCALE_INVALID,
                        photo.info().fileName()
                            + ": a model cannot be taught without a scale: state it, for example"
                            + " with --um-per-px."));
    TiledDie tiled = TiledDie.of(photo.pixels(), frame, scale.umPerPx().value(), tileUm);
    Map<String, DieRegion> regions =
        new OutlinePlacing(outlines, tiled.die(), tiled.grid().pitchUm()).regions();
    List<DieSide> sides = frame.realEdges();
    FeatureTable features = FeatureTable.extract(tiled.die(), tiled.grid());
    int n = tiled.grid().count();
    int[] classes = new int[n];
    Arrays.fill(classes, TaughtTiles.NO_SAMPLE);
    int[] numbers = new int[n];
    TileProbabilities found = base.classify(features, sides);
    int number = 0;
    for (DieRegion r : regions.values()) {
      label(r, number, features, found, classes, numbers);
      number++;
    }
    return new TaughtTiles(features, sides, classes, numbers);
  }

  private static void label(
      DieRegion region,
      int number,
      FeatureTable features,
      TileProbabilities found,
      int[] classes,
      int[] numbers) {
    if (region.dieClass() == DieClass.UNCLEAR
        && !region.reason().equals(Optional.of(UnclearReason.EMPTY))) {
      return;
    }
    TileGrid grid = features.grid();
    double s = grid.tilePx();
    PreparedGeometry inside = PreparedGeometryFactory.prepare(region.outline());
    List<PreparedGeometry> arrays =
        region.arrays().stream().map(a -> PreparedGeometryFactory.prepare(a)).toList();
    Envelope e = region.outline().getEnvelopeInternal();
    int lastRow = Math.min(grid.rows() - 1, (int) (e.getMaxY() / s));
    int lastColumn = Math.min(grid.columns() - 1, (int) (e.getMaxX() / s));
    for (int r = Math.max(0, (int) (e.getMinY() / s)); r <= lastRow; r++) {
      for (int c = Math.max(0, (int) (e.getMinX() / s)); c <= lastColumn; c++) {
        int t = r * grid.columns() + c;
        Geometry tile = FACTORY.toGeometry(new Envelope(c * s, (c + 1) * s, r * s, (r + 1) * s));
        if (!features.damaged(t) && inside.covers(tile)) {
          classes[t] = texture(region.dieClass(), tile, arrays, found, t);
          numbers[t] = number;
        }
      }
    }
  }

  private static int texture(
      DieClass c, Geometry tile, List<PreparedGeometry> arrays, TileProbabilities found, int t) {
    return switch (c) {
      case MEMORY_ARRAY -> memory(tile, arrays, found, t);
      case HARD_MACRO -> SurfaceClass.MACRO.ordinal();
      case LOGIC -> SurfaceClass.CELL_ROWS.ordinal();
      case PAD_RING -> SurfaceClass.IO_CELLS.ordinal();
      case UNCLEAR -> SurfaceClass.BARE.ordinal();
      case OFF_DIE -> TaughtTiles.NO_SAMPLE;
    };
  }

  private static int memory(
      Geometry tile, List<PreparedGeometry> arrays, TileProbabilities found, int t) {
    // Most arrays are outlines that a survey smoothed, not a person's word; where they were taught
    // as they stand, cells turned into periphery and whole memories were lost.
    SurfaceClass best = found.best(t);
    if (best.dieClass() == DieClass.MEMORY_ARRAY) {
      return best.ordinal();
    }
    if (arrays.isEmpty()) {
      return found.get(t, SurfaceClass.PERIPHERY) > found.get(t, SurfaceClass.BIT_CELLS)
          ? SurfaceClass.PERIPHERY.ordinal()
          : SurfaceClass.BIT_CELLS.ordinal();
    }
    if (arrays.stream().anyMatch(a -> a.covers(tile))) {
      return SurfaceClass.BIT_CELLS.ordinal();
    }
    return arrays.stream().noneMatch(a -> a.intersects(tile))
        ? SurfaceClass.PERIPHERY.ordinal()
        : TaughtTiles.NO_SAMPLE;
  }
}
