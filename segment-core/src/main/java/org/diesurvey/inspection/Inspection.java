package org.diesurvey.inspection;

import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;

/**
 * What a photograph can carry.
 *
 * @param photo its file
 * @param levels which of its levels it uses
 * @param thorough whether the whole photograph was looked at, else a sample
 * @param scale pixel pitch used, if known
 * @param die where the die is
 * @param focus blur over the field
 * @param exposure clipped samples
 * @param light fall-off
 * @param stitching seams and repeated stripes
 * @param compression traces of JPEG
 * @param dirt dust and residue
 * @param noise pixel noise
 * @param resolution finest detail in px
 * @param optics limits of the objective, if its aperture is known
 * @param node which structures can be seen, if the process node is known
 * @param findings what may spoil a survey, in the order of the flow
 */
public record Inspection(
    PhotoInfo photo,
    Levels levels,
    boolean thorough,
    Optional<Calibration> scale,
    DieFound die,
    FocusMap focus,
    Exposure exposure,
    LightFallOff light,
    Stitching stitching,
    Compression compression,
    Dirt dirt,
    Noise noise,
    Resolution resolution,
    Optional<Optics> optics,
    Optional<NodeVerdict> node,
    List<Finding> findings) {
  /** Name of the document format. */
  public static final String FORMAT = "diesurvey-inspection";

  /** Version of the document format. */
  public static final int FORMAT_VERSION = 1;

  /** Copies the list. */
  public Inspection {
    findings = List.copyOf(findings);
  }

  /** Finest period in um, where the scale is known. */
  public Optional<Double> finestPeriodUm() {
    return scale.map(c -> resolution.finestPeriodPx() * c.umPerPx().value());
  }

  Inspection with(List<Finding> found) {
    return new Inspection(
        photo,
        levels,
        thorough,
        scale,
        die,
        focus,
        exposure,
        light,
        stitching,
        compression,
        dirt,
        noise,
        resolution,
        optics,
        node,
        found);
  }
}
