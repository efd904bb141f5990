package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.pipeline.ScaleInput;
import picocli.CommandLine.Option;

/** What the user says of the scales of several photographs: once for all, or once for each. */
final class RevisionScales {
  @Option(
      names = "--um-per-px",
      paramLabel = "V[+-U]",
      description =
          "Pixel pitch in um with its standard uncertainty (k = 1), for example 0.5+-0.002: once"
              + " for all photographs, or once for each in their order.")
  private List<String> pitches = new ArrayList<>();

  @Option(
      names = "--scale",
      paramLabel = "FILE",
      description = "Calibration file of the objective: once for all, or once for each in order.")
  private List<Path> files = new ArrayList<>();

  @Option(names = "--no-scale", description = "Do not use scales that files state of themselves.")
  private boolean none;

  /**
   * The scales of the photographs in order; surveys bring their own.
   *
   * @param photographs how many of the revisions are photographs
   * @throws DieInputException SCALE_CONTRADICTORY, SCALE_INVALID, or the faults of a calibration
   *     file
   */
  List<ScaleInput> of(int photographs) {
    int kinds = (pitches.isEmpty() ? 0 : 1) + (files.isEmpty() ? 0 : 1) + (none ? 1 : 0);
    if (kinds > 1) {
      throw new DieInputException(
          Reason.SCALE_CONTRADICTORY,
          "--um-per-px, --scale and --no-scale state the scale more than once: use one of them.");
    }
    List<ScaleInput> stated = new ArrayList<>();
    for (String pitch : pitches) {
      stated.add(new ScaleInput.Known(PitchText.pitch(pitch)));
    }
    for (Path file : files) {
      String name = file.getFileName() == null ? file.toString() : file.getFileName().toString();
      stated.add(new ScaleInput.Known(CalibrationFile.read(file).calibration(name)));
    }
    if (stated.isEmpty()) {
      return Collections.nCopies(photographs, ScaleInput.NONE);
    }
    if (photographs == 0) {
      throw new WrongOption(
          pitches.isEmpty() ? "--scale" : "--um-per-px",
          "has nothing to act on: the surveys given bring their own scales");
    }
    if (stated.size() == 1) {
      return Collections.nCopies(photographs, stated.get(0));
    }
    if (stated.size() != photographs) {
      throw new WrongOption(
          pitches.isEmpty() ? "--scale" : "--um-per-px",
          "was given "
              + stated.size()
              + " times for "
              + photographs
              + (photographs == 1 ? " photograph" : " photographs")
              + "; give it once for all, or once for each in their order");
    }
    return List.copyOf(stated);
  }

  /** The calibration files. */
  List<Path> files() {
    return List.copyOf(files);
  }

  /** Whether a photograph's own tag may be used where nothing is stated. */
  boolean mayUseTag() {
    return !none;
  }
}
