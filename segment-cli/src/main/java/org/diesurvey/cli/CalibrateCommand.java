package org.diesurvey.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.CalibrationEvidence;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.calibration.DivisionTolerance;
import org.diesurvey.calibration.KnownLength;
import org.diesurvey.calibration.micrometer.MicrometerCalibration;
import org.diesurvey.calibration.micrometer.MicrometerFinder;
import org.diesurvey.calibration.micrometer.MicrometerReading;
import org.diesurvey.calibration.micrometer.ScaleFacts;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSizeScale;
import org.diesurvey.quantity.Measured;
import org.diesurvey.report.picture.MicrometerPictures;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Measures the pixel pitch of an objective. */
@Command(
    name = "calibrate",
    description = {
      "Measures the pixel pitch of an objective and writes a calibration file for --scale. Best"
          + " from photographs of a stage micrometer; also from two points, a die of known size, or"
          + " nominally from camera pixel and magnification.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "Photograph the micrometer under the objective, camera and zoom of the dies, in focus, once"
          + " along the rows and once turned by 90 degrees; the direction is recognised. Beside"
          + " FILE are written FILE-lines.png (look whether the count is right),"
          + " FILE-residuals.png and FILE.json.sha256 with their checksums.",
      "",
      "Examples:",
      "  diesurvey calibrate m0.tif m90.tif --division 10um --division-tolerance 0.02um --objective"
          + " 20x --out 20x.json",
      "  diesurvey calibrate --points 102,340,1894,352 --distance 100um --out 50x.json",
      "  diesurvey calibrate die.tif --die-size 2.10x1.70 --out 5x.json",
      "  diesurvey calibrate --camera-pixel 3.45um --magnification 20 --out nominal.json"
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the calibration file is written",
      "2:wrong call, or a photograph that gives no sure scale; nothing was written",
      "70:a fault of this program"
    })
final class CalibrateCommand implements Callable<Integer> {
  /** A measured pitch this far from the nominal one means a wrong count or a wrong objective. */
  private static final double FAR_FROM_NOMINAL = 0.2;

  @Parameters(
      paramLabel = "PHOTO",
      arity = "0..*",
      description = "Photographs of one stage micrometer; with --die-size one of a die.")
  private List<Path> photos = new ArrayList<>();

  @Option(
      names = "--division",
      paramLabel = "LENGTH",
      description = "From line to line as engraved, with its unit: 10um, 0.01mm.")
  private String division;

  @Option(
      names = "--division-tolerance",
      paramLabel = "VALUE",
      description =
          "Greatest error of a division: 0.02um, 20nm or 0.1%%, then, after a comma, rectangular"
              + " (the default), triangular or normal (VALUE is the expanded uncertainty, k = 2).")
  private String tolerance;

  @Option(
      names = "--long-lines",
      paramLabel = "N",
      description =
          "The engraving has one kind of longer line, at every Nth division; only where the picture"
              + " leaves the count open.")
  private Integer longLines;

  @Option(
      names = "--points",
      paramLabel = "X1,Y1,X2,Y2",
      description = "Two points in a photograph, px from its upper left corner.")
  private String points;

  @Option(
      names = "--distance",
      paramLabel = "LENGTH[+-U]",
      description = "Distance of the two points with its unit, for example 100um or 100um+-0.2um.")
  private String distance;

  @Option(
      names = "--point-uncertainty",
      paramLabel = "PX",
      defaultValue = "1",
      description = "Standard uncertainty of one point, px; ${DEFAULT-VALUE} by default.")
  private double pointPx;

  @Option(
      names = "--die-size",
      paramLabel = "WxH[+-U]",
      description = "Size of the die in the photograph, mm, in either order.")
  private String dieSize;

  @Option(
      names = "--camera-pixel",
      paramLabel = "LENGTH",
      description = "Side of a camera pixel, for example 3.45um; with photographs a check only.")
  private String cameraPixel;

  @Option(
      names = "--magnification",
      paramLabel = "M",
      description = "From die to camera, tube lens included.")
  private Double magnification;

  @Option(
      names = "--magnification-tolerance",
      paramLabel = "PERCENT",
      defaultValue = "5",
      description = "Limit of the magnification's error, %%; ${DEFAULT-VALUE} by default.")
  private double magnificationPercent;

  @Option(
      names = "--objective",
      paramLabel = "NAME",
      description = "The objective, as the lab calls it; kept in the file.")
  private String objective;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description =
          "The calibration file; one that calibrate wrote and nobody has changed is replaced.")
  private Path out;

  private final Diesurvey root;

  CalibrateCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    Optional<KnownLength> nominal = nominal();
    OwnFiles written = OwnFiles.of(out, ReadFiles.of(photos));
    Optional<DieInputException> refusal = written.refusal(names());
    if (refusal.isPresent()) {
      throw refusal.get();
    }
    Map<String, byte[]> files = new LinkedHashMap<>();
    Measured pitch;
    CalibrationEvidence evidence;
    String method;
    if (points != null || distance != null) {
      KnownLength k = twoPoints();
      pitch = k.umPerPx();
      evidence = k.evidence();
      method = "two points and their distance";
    } else if (dieSize != null) {
      KnownLength k = ofDie();
      pitch = k.umPerPx();
      evidence = k.evidence();
      method = "die size and die edge";
    } else if (!photos.isEmpty()) {
      MicrometerCalibration m = micrometer(files);
      nominal.ifPresent(n -> compare(m.umPerPx().value(), n.umPerPx().value()));
      pitch = m.umPerPx();
      evidence = m.evidence();
      method = "stage micrometer, divisions of " + division;
    } else if (nominal.isPresent()) {
      pitch = nominal.get().umPerPx();
      evidence = nominal.get().evidence();
      method = "camera pixel and magnification, nominal";
    } else {
      throw new WrongOption(
          "calibrate",
          "needs photographs of a stage micrometer with --division, or --points with --distance, or"
              + " a photograph with --die-size, or --camera-pixel with --magnification");
    }
    CalibrationFile file =
        new CalibrationFile(
            pitch,
            Optional.ofNullable(objective),
            Optional.of(method),
            Optional.of(
                Created.moment(root.terminal()).atZone(ZoneOffset.UTC).toLocalDate().toString()),
            Optional.empty(),
            Optional.of(evidence));
    Map<String, byte[]> all = new LinkedHashMap<>();
    all.put(String.valueOf(out.getFileName()), file.text().getBytes(StandardCharsets.UTF_8));
    all.putAll(files);
    written.write(all);
    new CalibrationText(root.terminal())
        .print(file, all.keySet().stream().map(out::resolveSibling).toList());
    return ExitCode.DONE;
  }

  /** Of the files that will be written. */
  private Set<String> names() {
    Set<String> names = new LinkedHashSet<>();
    names.add(String.valueOf(out.getFileName()));
    if (points == null && distance == null && dieSize == null && !photos.isEmpty()) {
      for (int i = 1; i <= photos.size(); i++) {
        names.add(lines(i));
      }
      names.add(SurveyFolders.stem(out) + "-residuals.png");
    }
    return names;
  }

  private String lines(int number) {
    return SurveyFolders.stem(out) + "-lines" + (photos.size() == 1 ? "" : "-" + number) + ".png";
  }

  private MicrometerCalibration micrometer(Map<String, byte[]> files) {
    if (division == null) {
      throw new WrongOption("--division", "is missing: state the engraved division, such as 10um");
    }
    double divisionUm = LengthText.um("--division", division);
    ScaleFacts facts =
        new ScaleFacts(
            divisionUm, longLines == null ? OptionalInt.empty() : OptionalInt.of(longLines));
    DivisionTolerance limit =
        tolerance == null ? DivisionTolerance.NONE : DivisionTolerance.parse(tolerance, divisionUm);
    List<MicrometerReading> readings = new ArrayList<>();
    for (Path path : photos) {
      try (DiePhoto photo = DiePhoto.open(path)) {
        photo.requireContent();
        MicrometerReading reading =
            MicrometerFinder.read(photo.pixels(), photo.info().fileName(), facts)
                .withSha256(photo.info().sha256());
        readings.add(reading);
        files.put(lines(readings.size()), MicrometerPictures.lines(photo.pixels(), reading));
      }
    }
    files.put(SurveyFolders.stem(out) + "-residuals.png", MicrometerPictures.residuals(readings));
    return MicrometerCalibration.of(readings, limit);
  }

  private static void compare(double measured, double nominal) {
    if (Math.abs(Math.log(measured / nominal)) > FAR_FROM_NOMINAL) {
      throw new DieInputException(
          Reason.SCALE_CONTRADICTORY,
          String.format(
              Locale.ROOT,
              "The micrometer gives %.4g um/px, camera pixel and magnification %.4g: check the"
                  + " division, the count in the picture, and the objective.",
              measured,
              nominal));
    }
  }

  private Optional<KnownLength> nominal() {
    if ((cameraPixel == null) != (magnification == null)) {
      throw new WrongOption("--camera-pixel", "and --magnification belong together");
    }
    return cameraPixel == null
        ? Optional.empty()
        : Optional.of(
            KnownLength.nominal(
                LengthText.um("--camera-pixel", cameraPixel),
                magnification,
                magnificationPercent / 100));
  }

  private KnownLength twoPoints() {
    if (points == null || distance == null) {
      throw new WrongOption("--points", "and --distance belong together");
    }
    double[] p = LengthText.four("--points", points);
    return KnownLength.points(
        new org.diesurvey.raster.PixelPoint(p[0], p[1]),
        new org.diesurvey.raster.PixelPoint(p[2], p[3]),
        LengthText.measuredUm("--distance", distance),
        pointPx);
  }

  private KnownLength ofDie() {
    if (photos.size() != 1) {
      throw new WrongOption("--die-size", "needs one photograph, got " + photos.size());
    }
    try (DiePhoto photo = DiePhoto.open(photos.get(0))) {
      return KnownLength.dieSize(DieSizeScale.of(photo, PitchText.dieSize(dieSize)).umPerPx());
    }
  }
}
