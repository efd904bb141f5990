package org.diesurvey.inspection;

import java.util.List;

/**
 * Pixel noise in grey of 0 to 1 (1 is the largest storable value).
 *
 * @param sigma standard deviation where the die is quietest
 * @param levels the same for levels of grey that are frequent enough, from dark to bright
 */
public record Noise(double sigma, List<AtLevel> levels) {
  /**
   * @param grey middle of the level, 0 to 1
   * @param sigma standard deviation there
   */
  public record AtLevel(double grey, double sigma) {}

  /** Copies the list. */
  public Noise {
    levels = List.copyOf(levels);
  }
}
