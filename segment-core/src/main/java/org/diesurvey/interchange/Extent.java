package org.diesurvey.interchange;

import org.diesurvey.Supported;

/**
 * How far a frame reaches from its origin: the die in um, or the photograph in px.
 *
 * @param width along x, above 0
 * @param height along y, above 0
 */
@Supported
public record Extent(double width, double height) {
  /** Rejects what has no area. */
  public Extent {
    if (!(width > 0 && height > 0 && width < 1e9 && height < 1e9)) {
      throw new IllegalArgumentException("no extent: " + width + " x " + height);
    }
  }
}
