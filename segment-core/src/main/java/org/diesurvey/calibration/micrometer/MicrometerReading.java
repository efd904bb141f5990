package org.diesurvey.calibration.micrometer;

import java.util.List;
import java.util.OptionalInt;

/**
 * What one photograph of a stage micrometer says.
 *
 * @param photo file name
 * @param sha256 of the file, 64 lower-case hex digits; empty where there is no file
 * @param divisionUm length of a division as stated, um
 * @param stepPx pixels from line to line, across the lines
 * @param stepUncertaintyPx its standard uncertainty from the scatter of the lines, px
 * @param degreesOfFreedom of that uncertainty
 * @param scatterPx standard deviation of the lines about the fitted scale, px
 * @param rotationDeg direction of the scale's axis, degrees clockwise from the x axis, -90 to 90
 * @param rotationUncertaintyDeg standard uncertainty of the rotation, degrees
 * @param brightGround dark lines on bright ground
 * @param lineWidthPx width of the lines, px
 * @param places divisions from the first to the last line, plus one
 * @param linesUsed lines that took part in the fit
 * @param longerEvery the longer lines come at this number of divisions; empty where none are longer
 * @param bend relative change of the step over the scale, from its least to its greatest value
 * @param bent whether the bend is more than chance
 * @param lines all lines found, by index
 */
public record MicrometerReading(
    String photo,
    String sha256,
    double divisionUm,
    double stepPx,
    double stepUncertaintyPx,
    double degreesOfFreedom,
    double scatterPx,
    double rotationDeg,
    double rotationUncertaintyDeg,
    boolean brightGround,
    double lineWidthPx,
    int places,
    int linesUsed,
    OptionalInt longerEvery,
    double bend,
    boolean bent,
    List<DivisionLine> lines) {
  /** Copies the list. */
  public MicrometerReading {
    lines = List.copyOf(lines);
  }

  /** Pixel pitch across the lines, um/px. */
  public double umPerPx() {
    return divisionUm / stepPx;
  }

  /** Places between the first and the last line where no line was found. */
  public int missing() {
    return places - lines.size();
  }

  /** The same reading with the hash of its file. */
  public MicrometerReading withSha256(String hash) {
    return new MicrometerReading(
        photo,
        hash,
        divisionUm,
        stepPx,
        stepUncertaintyPx,
        degreesOfFreedom,
        scatterPx,
        rotationDeg,
        rotationUncertaintyDeg,
        brightGround,
        lineWidthPx,
        places,
        linesUsed,
        longerEvery,
        bend,
        bent,
        lines);
  }
}
