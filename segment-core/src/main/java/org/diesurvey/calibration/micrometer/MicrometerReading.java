package org.diesurvey.calibration.micrometer;

import java.util.List;
import java.util.OptionalInt;
import org.diesurvey.quantity.Measured;

/**
 * What one photograph of a stage micrometer says.
 *
 * @param photo file name
 * @param sha256 of the file, 64 lower-case hex digits; empty where there is no file
 * @param engraving what the scale looks like
 * @param step from line to line
 * @param rotationDeg direction of the scale's axis, degrees clockwise from the x axis, -90 to 90,
 *     with its standard uncertainty
 * @param bend of the scale in the photograph
 * @param places divisions from the first to the last line, plus one
 * @param linesUsed lines that took part in the fit
 * @param lines all lines found, by index
 */
public record MicrometerReading(
    String photo,
    String sha256,
    Engraving engraving,
    Step step,
    Measured rotationDeg,
    Bend bend,
    int places,
    int linesUsed,
    List<DivisionLine> lines) {
  /** Copies the list. */
  public MicrometerReading {
    lines = List.copyOf(lines);
  }

  /** Pixel pitch across the lines, um/px. */
  public double umPerPx() {
    return engraving.divisionUm() / step.px().value();
  }

  /** Places between the first and the last line where no line was found. */
  public int missing() {
    return places - lines.size();
  }

  /** The same reading with the hash of its file. */
  public MicrometerReading withSha256(String hash) {
    return new MicrometerReading(
        photo, hash, engraving, step, rotationDeg, bend, places, linesUsed, lines);
  }

  /**
   * What the scale looks like.
   *
   * @param divisionUm length of a division as stated, um
   * @param brightGround dark lines on bright ground
   * @param lineWidthPx width of the lines, px
   * @param longerEvery the longer lines come at this number of divisions; empty where none are
   *     longer
   */
  public record Engraving(
      double divisionUm, boolean brightGround, double lineWidthPx, OptionalInt longerEvery) {}

  /**
   * The distance of neighbouring lines.
   *
   * @param px pixels from line to line, across the lines, with the standard uncertainty from the
   *     scatter of the lines
   * @param degreesOfFreedom of that uncertainty
   * @param scatterPx standard deviation of the lines about the fitted scale, px
   */
  public record Step(Measured px, double degreesOfFreedom, double scatterPx) {}

  /**
   * How far the scale is from even.
   *
   * @param relative change of the step over the scale, from its least to its greatest value
   * @param significant whether it is more than chance
   */
  public record Bend(double relative, boolean significant) {}
}
