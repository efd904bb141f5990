package org.diesurvey.interchange;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Outlines of one die in one frame.
 *
 * @param frame of all coordinates
 * @param extent of the die (um) or the photograph (px), if known
 * @param photo which photograph they belong to
 * @param outlines regions and bit-cell arrays, in the order of the file
 */
@Supported
public record OutlineSet(
    OutlineFrame frame, Optional<Extent> extent, PhotoLink photo, List<ClassedOutline> outlines) {
  /** Copies the list. */
  public OutlineSet {
    outlines = List.copyOf(outlines);
  }

  /** The regions, without the bit-cell arrays inside them. */
  public List<ClassedOutline> regions() {
    return outlines.stream().filter(o -> !o.inner()).toList();
  }

  /** The bit-cell arrays inside one region. */
  public List<ClassedOutline> bitCellsOf(String id) {
    return outlines.stream().filter(o -> o.partOf().equals(Optional.of(id))).toList();
  }

  /**
   * The same outlines in another frame.
   *
   * @param to the other frame
   * @param map from this frame to the other
   * @param otherExtent of the other frame, if known
   */
  public OutlineSet in(OutlineFrame to, PlaneTransform map, Optional<Extent> otherExtent) {
    return new OutlineSet(
        to,
        otherExtent,
        photo,
        outlines.stream().map(o -> o.withShape(mapped(o.shape(), map))).toList());
  }

  private static Outline mapped(Outline o, PlaneTransform map) {
    return new Outline(
        mapped(o.shell(), map), o.holes().stream().map(h -> mapped(h, map)).toList());
  }

  private static List<Point> mapped(List<Point> ring, PlaneTransform map) {
    return ring.stream().map(p -> new Point(map.x(p.x(), p.y()), map.y(p.x(), p.y()))).toList();
  }
}
