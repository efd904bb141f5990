package org.diesurvey.report.picture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;

/**
 * A crop out of the middle of a region at full resolution, so that a person can check why it got
 * its class.
 *
 * @param x middle of the crop, px of the photograph
 * @param y middle of the crop, px of the photograph
 * @param side of the crop, px; it lies along the die's axes
 * @param texture what the crop is like
 * @param alike ids of the most alike regions of the die, the nearest first
 */
public record RegionLook(double x, double y, int side, CropTexture texture, List<String> alike) {
  private static final int LARGEST_PX = 160;
  private static final int SMALLEST_PX = 24;

  /** Crops are made of so many regions, the largest. */
  private static final int MOST = 120;

  private static final int ALIKE = 3;

  /** Copies the list. */
  public RegionLook {
    alike = List.copyOf(alike);
  }

  /**
   * Crops by the ids of their regions; none of damaged places and of regions that are too small.
   */
  public static Map<String, RegionLook> of(Survey survey, PixelSource photo) {
    List<SurveyRegion> largest =
        survey.regions().stream()
            .filter(r -> !r.verdict().hidden())
            .sorted(Comparator.comparingDouble((SurveyRegion r) -> r.area().px2()).reversed())
            .limit(MOST)
            .toList();
    List<Point> corners = survey.die().outlinePx();
    Map<String, RegionLook> looks = new LinkedHashMap<>();
    for (SurveyRegion r : largest) {
      LabelSpot spot = LabelSpot.in(place(r));
      int side = (int) Math.min(LARGEST_PX, spot.radius() * Math.sqrt(2)) / 4 * 4;
      if (side >= SMALLEST_PX) {
        CropTexture texture = CropTexture.of(crop(photo, corners, spot, side), side);
        looks.put(r.id(), new RegionLook(spot.x(), spot.y(), side, texture, List.of()));
      }
    }
    Map<String, RegionLook> out = new LinkedHashMap<>();
    looks.forEach((id, look) -> out.put(id, look.withAlike(alike(id, looks))));
    return out;
  }

  private RegionLook withAlike(List<String> ids) {
    return new RegionLook(x, y, side, texture, ids);
  }

  private static List<String> alike(String id, Map<String, RegionLook> looks) {
    CropTexture own = looks.get(id).texture;
    List<String> ids = new ArrayList<>(looks.keySet());
    ids.remove(id);
    ids.sort(Comparator.comparingDouble(other -> own.distance(looks.get(other).texture)));
    return ids.subList(0, Math.min(ALIKE, ids.size()));
  }

  /** A memory is looked at in the largest of its arrays. */
  private static Outline place(SurveyRegion r) {
    return r.inPhoto().bitCellArrays().stream()
        .max(Comparator.comparingDouble(RegionLook::boxArea))
        .orElse(r.inPhoto().outline());
  }

  private static double boxArea(Outline o) {
    var x = o.shell().stream().mapToDouble(Point::x).summaryStatistics();
    var y = o.shell().stream().mapToDouble(Point::y).summaryStatistics();
    return (x.getMax() - x.getMin()) * (y.getMax() - y.getMin());
  }

  /** Grey along the die's axes, bilinear. */
  private static float[] crop(PixelSource photo, List<Point> corners, LabelSpot spot, int side) {
    double angle =
        Math.atan2(
            corners.get(1).y() - corners.get(0).y(), corners.get(1).x() - corners.get(0).x());
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    int reach = (int) Math.ceil(side / 2.0 * (Math.abs(c) + Math.abs(s))) + 2;
    PixelRect window =
        new PixelRect((int) spot.x() - reach, (int) spot.y() - reach, 2 * reach, 2 * reach)
            .within(photo.width(), photo.height());
    float[] grey = new float[window.width() * window.height()];
    photo.readGray(window, grey);
    float[] out = new float[side * side];
    for (int row = 0; row < side; row++) {
      for (int column = 0; column < side; column++) {
        double u = column + 0.5 - side / 2.0;
        double v = row + 0.5 - side / 2.0;
        out[row * side + column] =
            at(grey, window, spot.x() + u * c - v * s - 0.5, spot.y() + u * s + v * c - 0.5);
      }
    }
    return out;
  }

  /** The value at a place counted in middles of pixels; at the border the nearest. */
  private static float at(float[] grey, PixelRect w, double x, double y) {
    double px = Math.max(0, Math.min(w.width() - 1.0, x - w.x()));
    double py = Math.max(0, Math.min(w.height() - 1.0, y - w.y()));
    int x0 = (int) px;
    int y0 = (int) py;
    int x1 = Math.min(w.width() - 1, x0 + 1);
    int y1 = Math.min(w.height() - 1, y0 + 1);
    double fx = px - x0;
    double fy = py - y0;
    double upper = (1 - fx) * grey[y0 * w.width() + x0] + fx * grey[y0 * w.width() + x1];
    double lower = (1 - fx) * grey[y1 * w.width() + x0] + fx * grey[y1 * w.width() + x1];
    return (float) ((1 - fy) * upper + fy * lower);
  }
}
