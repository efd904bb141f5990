package org.diesurvey.survey;

import java.util.List;
import org.diesurvey.Supported;

/**
 * An area bounded by one outer ring, with holes. Rings are not closed explicitly: the last corner
 * is joined to the first.
 *
 * @param shell outer ring, at least 3 corners
 * @param holes inner rings, each at least 3 corners, inside the shell, not touching each other
 *     along an edge
 */
@Supported
public record Outline(List<Point> shell, List<List<Point>> holes) {
  /** Copies the lists and rejects rings with fewer than three corners. */
  public Outline {
    shell = List.copyOf(shell);
    holes = holes.stream().map(List::copyOf).toList();
    if (shell.size() < 3 || holes.stream().anyMatch(h -> h.size() < 3)) {
      throw new IllegalArgumentException("a ring needs at least 3 corners");
    }
  }
}
