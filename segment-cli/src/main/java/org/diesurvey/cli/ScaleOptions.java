package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.pipeline.ScaleInput;
import picocli.CommandLine.Option;

/** What the user says of the scale; at most one of the options. */
final class ScaleOptions {
  @Option(
      names = "--um-per-px",
      paramLabel = "V[+-U]",
      description =
          "Pixel pitch: the width of one pixel on the die in um, with its standard uncertainty (k ="
              + " 1), for example 0.5+-0.002. Measure it with a stage micrometer under the same"
              + " objective and camera.")
  private String pitch;

  @Option(
      names = "--scale",
      paramLabel = "FILE",
      description =
          "Calibration file of the objective: JSON with format \"diesurvey-calibration\","
              + " format_version 1, um_per_px and standard_uncertainty_um_per_px.")
  private Path file;

  @Option(
      names = "--die-size",
      paramLabel = "WxH[+-U]",
      description =
          "Size of the die in mm, in either order, for example 2.10x1.70. The scale follows from"
              + " the die edge found in the photograph. Without U the rounding to the last digit"
              + " counts as uncertainty.")
  private String dieSize;

  @Option(
      names = "--no-scale",
      description =
          "Do not use the scale that the file may state about itself: regions and shares only, no"
              + " areas.")
  private boolean none;

  /**
   * What the user said; {@link ScaleInput#NONE} if nothing.
   *
   * @throws DieInputException SCALE_CONTRADICTORY for more than one statement, SCALE_INVALID, or
   *     the faults of a calibration file
   */
  ScaleInput stated() {
    List<String> given = new ArrayList<>();
    if (pitch != null) {
      given.add("--um-per-px");
    }
    if (file != null) {
      given.add("--scale");
    }
    if (dieSize != null) {
      given.add("--die-size");
    }
    if (none) {
      given.add("--no-scale");
    }
    if (given.size() > 1) {
      throw new DieInputException(
          Reason.SCALE_CONTRADICTORY,
          String.join(" and ", given) + " state the scale more than once: keep one of them.");
    }
    if (pitch != null) {
      return new ScaleInput.Known(PitchText.pitch(pitch));
    }
    if (file != null) {
      String name = file.getFileName() == null ? file.toString() : file.getFileName().toString();
      return new ScaleInput.Known(CalibrationFile.read(file).calibration(name));
    }
    return dieSize == null ? ScaleInput.NONE : PitchText.dieSize(dieSize);
  }

  /** The calibration file. */
  Optional<Path> file() {
    return Optional.ofNullable(file);
  }

  /** Whether a photograph's own tag may be used where nothing is stated. */
  boolean mayUseTag() {
    return !none;
  }
}
