package org.diesurvey.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.DivisionTolerance;
import org.diesurvey.calibration.micrometer.MicrometerCalibration;
import org.diesurvey.calibration.micrometer.MicrometerFinder;
import org.diesurvey.calibration.micrometer.ScaleFacts;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.scoring.MicrometerScores;
import org.diesurvey.synthetic.DrawnMicrometer;
import org.diesurvey.synthetic.MicrometerDrawing;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Compares pitches read from micrometer photographs with truth. */
@Command(
    name = "score-micrometers",
    description = {
      "Reads photographs of stage micrometers whose pitch is known and says how far the pitch found"
          + " is off, and how often the stated interval holds the true one.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "Truth: JSON files with image, um_per_px and division_um beside the photographs.",
      "",
      "Example:",
      "  diesurvey score-micrometers micrometers --drawn 200 --seed 500000"
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:all were read",
      "1:some were refused",
      "2:wrong call",
      "70:a fault of this program"
    })
final class ScoreMicrometersCommand implements Callable<Integer> {
  /** A blur up to this share of a division counts as sharp, as for drawn micrometers. */
  private static final double SHARP = 0.08;

  @Parameters(paramLabel = "DIR", arity = "0..*", description = "Folders with truth files.")
  private List<Path> folders = new ArrayList<>();

  @Option(
      names = "--drawn",
      paramLabel = "N",
      description = "Also draw N micrometers and score them, 1 to 10000.")
  private int drawn;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "500000",
      description = "Seed of the first one drawn; ${DEFAULT-VALUE} by default.")
  private long seed;

  @Option(
      names = "--save",
      paramLabel = "DIR",
      description = "Keep the drawn photographs and their truth here.")
  private Path save;

  @Option(names = "--summary", description = "Do not list every photograph.")
  private boolean summary;

  private final Diesurvey root;

  ScoreMicrometersCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (folders.isEmpty() && drawn == 0) {
      throw new WrongOption("score-micrometers", "needs folders with truth files or --drawn N");
    }
    if (drawn < 0 || drawn > 10_000) {
      throw new WrongOption("--drawn", "must be from 1 to 10000, was " + drawn);
    }
    List<MicrometerScores.Line> lines = new ArrayList<>();
    for (Path folder : folders) {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path truth : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
          lines.add(ofFile(truth));
        }
      } catch (IOException e) {
        throw new DieInputException(
            Reason.FILE_UNREADABLE, folder + ": this folder of truth files cannot be read.", e);
      }
    }
    for (long s = seed; s < seed + drawn; s++) {
      lines.add(ofSeed(s));
    }
    MicrometerScores scores = new MicrometerScores(lines);
    root.terminal().result(scores.text(!summary));
    return scores.refused() > 0 ? ExitCode.SOME_REJECTED : ExitCode.DONE;
  }

  private MicrometerScores.Line ofFile(Path file) throws IOException {
    JsonNode truth = new ObjectMapper().readTree(Files.readAllBytes(file));
    double pitch = truth.path("um_per_px").asDouble();
    double division = truth.path("division_um").asDouble();
    double blurUm =
        truth.has("blur_px")
            ? truth.path("blur_px").asDouble() * pitch
            : truth.path("blur_sigma_um").asDouble();
    boolean sharp = truth.path("sharp").asBoolean(blurUm <= SHARP * division);
    try (DiePhoto photo = DiePhoto.open(file.resolveSibling(truth.path("image").asText()))) {
      return line(photo.pixels(), photo.info().fileName(), sharp, pitch, division);
    }
  }

  private MicrometerScores.Line ofSeed(long s) {
    DrawnMicrometer m = MicrometerDrawing.draw(s);
    if (save != null) {
      try {
        m.write(save, "micrometer-" + s);
      } catch (IOException e) {
        throw new DieInputException(
            Reason.OUTPUT_NOT_WRITABLE, save + ": the drawn photograph cannot be written.", e);
      }
    }
    return line(
        new DrawnPixels(m.widthPx(), m.heightPx(), m.rgb()),
        "micrometer-" + s,
        m.truth().sharp(),
        m.truth().umPerPx(),
        m.truth().divisionUm());
  }

  private static MicrometerScores.Line line(
      PixelSource pixels, String name, boolean sharp, double pitch, double division) {
    try {
      MicrometerCalibration c =
          MicrometerCalibration.of(
              List.of(MicrometerFinder.read(pixels, name, ScaleFacts.ofDivision(division))),
              DivisionTolerance.NONE);
      return new MicrometerScores.Line(
          name,
          sharp,
          pitch,
          Optional.of(c.umPerPx().value()),
          c.evidence().interval95().low(),
          c.evidence().interval95().high(),
          Optional.empty());
    } catch (DieInputException e) {
      return new MicrometerScores.Line(
          name, sharp, pitch, Optional.empty(), 0, 0, Optional.of(e.getMessage()));
    }
  }
}
