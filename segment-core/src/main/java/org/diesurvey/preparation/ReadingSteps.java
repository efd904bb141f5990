package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.diesurvey.photo.Reading;

/** Says how the photograph came out of its file. */
public final class ReadingSteps {
  /** Figure: which plane of the file was read, from 1. */
  private static final String PLANE = "plane";

  /** What was done for each EXIF code from 2 on (TIFF 6.0, section 8, Orientation). */
  private static final List<String> TURNED =
      List.of(
          "mirrored left to right",
          "turned by 180\u00b0",
          "mirrored top to bottom",
          "mirrored and turned by 90\u00b0 anticlockwise",
          "turned by 90\u00b0 clockwise",
          "mirrored and turned by 90\u00b0 clockwise",
          "turned by 90\u00b0 anticlockwise");

  private ReadingSteps() {}

  /** The steps; none for a file of one picture that is used as it is stored. */
  public static List<PreparationStep> of(Reading reading) {
    List<PreparationStep> steps = new ArrayList<>();
    if (reading.planes() > 1) {
      steps.add(
          PreparationStep.of(
                  PreparationStep.Kind.PLANE,
                  "The file holds "
                      + reading.planes()
                      + " pictures; plane "
                      + reading.plane()
                      + " was used.")
              .with(PLANE, reading.plane())
              .with("planes", reading.planes()));
    }
    if (reading.orientation() > 1) {
      steps.add(
          PreparationStep.of(
                  PreparationStep.Kind.ORIENTATION,
                  "The picture was "
                      + TURNED.get(reading.orientation() - 2)
                      + ", as its orientation tag says.")
              .with("exif_code", reading.orientation()));
    }
    reading
        .conversions()
        .forEach(c -> steps.add(PreparationStep.of(PreparationStep.Kind.SAMPLES, c + ".")));
    return steps;
  }

  /** The plane that steps name, to open the same picture again. */
  public static OptionalInt plane(List<PreparationStep> steps) {
    return steps.stream()
        .filter(s -> s.kind() == PreparationStep.Kind.PLANE && s.figures().containsKey(PLANE))
        .mapToInt(s -> s.figures().get(PLANE).intValue())
        .findFirst();
  }
}
