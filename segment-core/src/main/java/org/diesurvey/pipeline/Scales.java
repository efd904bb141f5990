package org.diesurvey.pipeline;

import java.util.Locale;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.quantity.Measured;

/** Turns what the user knows of the scale into a pixel pitch. */
final class Scales {
  /** Aspect ratios of the stated and the found die may differ by this factor. */
  private static final double ASPECT_TOLERANCE = 1.05;

  private Scales() {}

  static Optional<Calibration> resolve(ScaleInput input, DieLocation frame, String file) {
    if (input instanceof ScaleInput.Known known) {
      return Optional.of(known.calibration());
    }
    if (input instanceof ScaleInput.OfDieSize size) {
      return Optional.of(ofDieSize(size, frame, file));
    }
    return Optional.empty();
  }

  private static Calibration ofDieSize(ScaleInput.OfDieSize size, DieLocation frame, String file) {
    if (frame.partial()) {
      throw new DieInputException(
          Reason.DIE_EDGE_NOT_FOUND,
          file
              + ": the photograph cuts the die, so the die size gives no scale: state the pixel"
              + " pitch in um per px instead.");
    }
    if (!frame.edgeFound()) {
      throw new DieInputException(
          Reason.DIE_EDGE_NOT_FOUND,
          file
              + ": no die edge was found, so the die size gives no scale: state the pixel pitch in"
              + " um per px instead.");
    }
    double w = frame.widthPx();
    double h = frame.heightPx();
    double straight = w / h / (size.widthMm() / size.heightMm());
    double turned = w / h / (size.heightMm() / size.widthMm());
    boolean asGiven = Math.abs(Math.log(straight)) <= Math.abs(Math.log(turned));
    double misfit = Math.exp(Math.abs(Math.log(asGiven ? straight : turned)));
    if (misfit > ASPECT_TOLERANCE) {
      throw new DieInputException(
          Reason.SCALE_CONTRADICTORY,
          String.format(
              Locale.ROOT,
              "%s: the die found is %.0f x %.0f px, a ratio of %.3f, which does not fit a die of %s"
                  + " x %s mm: check the size, or state the pixel pitch instead.",
              file,
              w,
              h,
              w / h,
              size.widthMm(),
              size.heightMm()));
    }
    double wMm = asGiven ? size.widthMm() : size.heightMm();
    double hMm = asGiven ? size.heightMm() : size.widthMm();
    double pitch = 1000 * Math.sqrt(wMm / w * (hMm / h));
    double side = Math.sqrt(wMm * hMm);
    double edge = frame.edgeUncertaintyPx() * Math.sqrt(2) / Math.sqrt(w * h);
    double relative =
        Math.sqrt(
            Math.pow(size.standardUncertaintyMm() / side, 2) / 2
                + edge * edge / 2
                + Math.pow(Math.log(misfit) / 2, 2));
    return new Calibration(
        new Measured(pitch, pitch * relative),
        ScaleOrigin.DIE_SIZE,
        String.format(Locale.ROOT, "die size %s x %s mm and the die edge found", wMm, hMm));
  }
}
