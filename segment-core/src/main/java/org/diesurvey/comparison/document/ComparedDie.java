package org.diesurvey.comparison.document;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.quantity.Measured;

/**
 * What identifies one side of a comparison.
 *
 * @param fileName of the photograph, without folders
 * @param photoSha256 of the photograph's bytes
 * @param dieNumber which die of the photograph, from 1
 * @param model name of the model or "outlines by hand"
 * @param modelSha256 of that model
 * @param scale pixel pitch; empty if none was given
 * @param widthMm of the die or its visible part; empty without a scale
 * @param heightMm the same
 * @param wholeDie whether all four die edges are seen
 * @param rotationDeg of the die in the photograph, positive clockwise as seen
 */
@Supported
public record ComparedDie(
    String fileName,
    String photoSha256,
    int dieNumber,
    String model,
    String modelSha256,
    Optional<Calibration> scale,
    Optional<Measured> widthMm,
    Optional<Measured> heightMm,
    boolean wholeDie,
    double rotationDeg) {}
