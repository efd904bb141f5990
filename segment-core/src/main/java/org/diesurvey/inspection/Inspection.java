package org.diesurvey.inspection;

import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.Reading;

/**
 * What a photograph can carry.
 *
 * @param subject what was looked at
 * @param capture what the optics and the camera did
 * @param artefacts what does not belong to the die
 * @param detail the finest that can be seen
 * @param findings what may spoil a survey, in the order of the flow
 */
public record Inspection(
    Subject subject, Capture capture, Artefacts artefacts, Detail detail, List<Finding> findings) {
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
    return subject.scale().map(c -> detail.resolution().finestPeriodPx() * c.umPerPx().value());
  }

  Inspection withFindings(List<Finding> found) {
    return new Inspection(subject, capture, artefacts, detail, found);
  }

  /**
   * What was looked at.
   *
   * @param photo its file
   * @param reading how the photograph came out of it
   * @param levels which of its levels it uses
   * @param scale pixel pitch used, if known
   * @param die where the die is
   */
  public record Subject(
      PhotoInfo photo, Reading reading, Levels levels, Optional<Calibration> scale, DieFound die) {}

  /**
   * What the optics and the camera did.
   *
   * @param focus blur over the field
   * @param exposure clipped samples
   * @param light fall-off
   * @param noise pixel noise
   */
  public record Capture(FocusMap focus, Exposure exposure, LightFallOff light, Noise noise) {}

  /**
   * What does not belong to the die.
   *
   * @param stitching seams and repeated stripes
   * @param compression traces of JPEG
   * @param dirt dust and residue
   */
  public record Artefacts(Stitching stitching, Compression compression, Contamination dirt) {}

  /**
   * The finest that can be seen.
   *
   * @param resolution finest detail in px
   * @param optics limits of the objective, if its aperture is known
   * @param node which structures can be seen, if the process node is known
   */
  public record Detail(
      Resolution resolution, Optional<Optics> optics, Optional<NodeVerdict> node) {}
}
