package org.diesurvey.synthetic;

/**
 * What a drawn stage micrometer and its photo truly are. Angles clockwise as seen, pixels x right,
 * y down.
 *
 * @param seed of the drawing
 * @param umPerPx pixel pitch in the middle of the field
 * @param divisionUm from line to line
 * @param lineWidthUm width of every line
 * @param rotationDeg direction of the scale's axis against the rows, 0 to 180
 * @param linesInView lines whose middle lies in the picture and that were drawn
 * @param missingLines lines between those that were left out
 * @param fifthLonger whether each 5th line is longer
 * @param tenthLonger whether each 10th line is longer still
 * @param darkGround bright lines on dark ground
 * @param contrast of lines against ground, share of the ground's brightness
 * @param blurPx standard deviation of the blur
 * @param noise standard deviation of the noise on the ground, share of full scale
 * @param distortion radial distortion at the corners, share; 0 for none
 * @param lineErrorUm standard deviation of the places of the lines
 * @param jpegQuality 0 where the photo was never compressed
 * @param sharp blur of at most 0.08 divisions, no distortion, noise of at most 0.1 of the contrast
 */
public record MicrometerTruth(
    long seed,
    double umPerPx,
    double divisionUm,
    double lineWidthUm,
    double rotationDeg,
    int linesInView,
    int missingLines,
    boolean fifthLonger,
    boolean tenthLonger,
    boolean darkGround,
    double contrast,
    double blurPx,
    double noise,
    double distortion,
    double lineErrorUm,
    int jpegQuality,
    boolean sharp) {}
