package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.preparation.FlatField;
import picocli.CommandLine.Option;

/** What a user states about photographs besides their scale. */
final class PhotoStatements {
  @Option(
      names = "--die",
      paramLabel = "N",
      description =
          "Which die to survey where a photograph shows several, counted from 1, left to right,"
              + " then top to bottom. Without it: the largest and most central, with a warning"
              + " that names the others.")
  private Integer die;

  @Option(
      names = "--flat-field",
      paramLabel = "FILE",
      description =
          "Photograph of an empty field under the same light and camera settings: the light is"
              + " divided out by it. Without it, the fall-off of the light is estimated from the"
              + " photograph itself.")
  private Path flatField;

  @Option(
      names = "--plane",
      paramLabel = "N",
      description =
          "Which picture of a file that holds several (a stack, channels, pages), counted from 1;"
              + " the first by default, with a warning that says so.")
  private Integer plane;

  /** The photograph of an empty field. */
  Optional<Path> flatField() {
    return Optional.ofNullable(flatField);
  }

  /**
   * What was stated; reads the flat field.
   *
   * @throws WrongOption if the number is below 1
   * @throws org.diesurvey.DieInputException if the flat field cannot be used
   */
  PhotoOptions options() {
    if (die != null && die < 1) {
      throw new WrongOption("--die", "must be the number of a die, 1 or more, was " + die);
    }
    Optional<FlatField> flat = flatField().map(PhotoStatements::flatField);
    if (plane != null && plane < 1) {
      throw new WrongOption("--plane", "must be the number of a picture, 1 or more, was " + plane);
    }
    return new PhotoOptions(number(die), flat, number(plane));
  }

  /**
   * Reads the photograph of an empty field.
   *
   * @throws org.diesurvey.DieInputException if it cannot be used
   */
  static FlatField flatField(Path file) {
    try (DiePhoto photo = DiePhoto.open(file)) {
      return FlatField.of(photo);
    }
  }

  private static OptionalInt number(Integer stated) {
    return stated == null ? OptionalInt.empty() : OptionalInt.of(stated);
  }
}
