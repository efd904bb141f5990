package org.diesurvey.pipeline;

import java.util.List;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.preparation.VisiblePart;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.tiles.TileGrid;

/**
 * What a photograph shows of the upright raster of a die: a turned photograph without a die edge
 * has empty corners.
 */
public final class ShownPart {
  private final boolean[] tiles;
  private final List<DieSide> edges;
  private final List<PixelPoint> outline;

  /**
   * @param tiles one flag a tile: whether its middle lies in the photograph
   * @param edges sides of the raster that are the die's own edges
   * @param outline corners of what is shown, px of the raster; none if that is all of it
   */
  public ShownPart(boolean[] tiles, List<DieSide> edges, List<PixelPoint> outline) {
    this.tiles = tiles;
    this.edges = List.copyOf(edges);
    this.outline = List.copyOf(outline);
  }

  /** What the photograph shows of a die. */
  public static ShownPart of(PreparedDie die, TileGrid grid) {
    boolean[] tiles = new boolean[grid.count()];
    for (int t = 0; t < tiles.length; t++) {
      double x = (t % grid.columns() + 0.5) * grid.tilePx();
      double y = (t / grid.columns() + 0.5) * grid.tilePx();
      double px = die.uprightToPhoto().x(x, y);
      double py = die.uprightToPhoto().y(x, y);
      tiles[t] = px >= 0 && py >= 0 && px < die.source().width() && py < die.source().height();
    }
    return new ShownPart(tiles, die.frame().realEdges(), outline(die));
  }

  private static List<PixelPoint> outline(PreparedDie die) {
    if (die.edgeFound() || !(die.uprightToPhoto() instanceof PlaneTransform toPhoto)) {
      return List.of();
    }
    PlaneTransform back = toPhoto.inverse();
    return VisiblePart.polygon(die.corners(), die.source().width(), die.source().height()).stream()
        .map(p -> new PixelPoint(back.x(p.x(), p.y()), back.y(p.x(), p.y())))
        .toList();
  }

  /** One flag a tile: whether its middle lies in the photograph; not to be changed. */
  public boolean[] tiles() {
    return tiles;
  }

  /** Sides of the raster that are the die's own edges. */
  public List<DieSide> edges() {
    return edges;
  }

  /** Corners of what is shown, px of the raster; none if that is all of it. */
  public List<PixelPoint> outline() {
    return outline;
  }
}
