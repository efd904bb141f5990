package org.diesurvey.comparison.tiles;

import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;

/** Which region of a survey every tile of the common grid belongs to; -1 for none. */
public final class TileClasses {
  public final Survey survey;
  public final int[] region;

  private TileClasses(Survey survey, int[] region) {
    this.survey = survey;
    this.region = region;
  }

  /**
   * @param toGrid from the survey's own die frame (its unit, y up) to tiles (column, row, y down)
   */
  public static TileClasses of(Survey survey, PlaneTransform toGrid, int columns, int rows) {
    int[] out = new int[columns * rows];
    java.util.Arrays.fill(out, -1);
    for (int i = 0; i < survey.regions().size(); i++) {
      Outline outline = Outlines.own(survey, survey.regions().get(i));
      Polygon p = Outlines.polygon(outline, toGrid);
      IndexedPointInAreaLocator inside = new IndexedPointInAreaLocator(p);
      Envelope box = p.getEnvelopeInternal();
      for (int r = Math.max(0, (int) box.getMinY());
          r <= Math.min(rows - 1, (int) box.getMaxY());
          r++) {
        for (int c = Math.max(0, (int) box.getMinX());
            c <= Math.min(columns - 1, (int) box.getMaxX());
            c++) {
          if (inside.locate(new Coordinate(c + 0.5, r + 0.5)) != Location.EXTERIOR) {
            out[r * columns + c] = i;
          }
        }
      }
    }
    return new TileClasses(survey, out);
  }

  public DieClass at(int tile) {
    return region[tile] < 0 ? DieClass.UNCLEAR : regionOf(tile).dieClass();
  }

  boolean damaged(int tile) {
    return region[tile] >= 0 && regionOf(tile).verdict().hidden();
  }

  SurveyRegion regionOf(int tile) {
    return survey.regions().get(region[tile]);
  }

  /** Whether either of two surveys sees the pad ring at a tile. */
  public static boolean inRing(OfBoth<TileClasses> classes, int tile) {
    return classes.first().at(tile) == DieClass.PAD_RING
        || classes.second().at(tile) == DieClass.PAD_RING;
  }

  /** Whether a class is that of blocks, which change as a whole. */
  public static boolean isBlock(DieClass c) {
    return c == DieClass.MEMORY_ARRAY || c == DieClass.HARD_MACRO;
  }
}
