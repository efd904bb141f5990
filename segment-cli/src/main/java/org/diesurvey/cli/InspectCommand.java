package org.diesurvey.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.inspection.Inspection;
import org.diesurvey.inspection.InspectionJson;
import org.diesurvey.inspection.InspectionSettings;
import org.diesurvey.inspection.PhotoInspector;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.ReadLimits;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.ScaleOfPhoto;
import org.diesurvey.report.picture.InspectionFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Tells what a photograph can carry. */
@Command(
    name = "inspect",
    description = {
      "Tells what a photograph can carry before it is surveyed: focus, exposure, light, seams,"
          + " compression, dirt, noise, the finest detail, and what the objective and the process"
          + " node allow to be seen.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the photograph was inspected, whatever was found",
      "1:the photograph was rejected, nothing was written",
      "2:wrong call, nothing was done",
      "70:a fault of this program"
    },
    footer = {
      "",
      "Softness is the blur of edges as the standard deviation of a Gaussian, in pixels; below 1 px"
          + " it also depends on how fine the layout is. Dirt is a lower bound. Seams are not"
          + " judged where the layout lies exactly along the pixel rows, since its own edges look"
          + " the same.",
      "",
      "Output with --out:",
      "  inspection.json  everything, with its JSON Schema in the library",
      "  inspection.png   the photograph with the focus map, seams, spots and clipped areas",
      "",
      "Examples:",
      "  diesurvey inspect die.tif",
      "  diesurvey inspect die.tif --um-per-px 0.35 --na 0.55 --node 130 --out inspected",
      "  diesurvey inspect die.jpg --json > inspection.json"
    })
final class InspectCommand implements Callable<Integer> {
  @Parameters(paramLabel = "PHOTO", description = "PNG, JPEG or TIFF photograph of a die.")
  private Path photo;

  @Mixin private ScaleOptions scale;

  @Option(
      names = "--na",
      paramLabel = "NA",
      description = "Numerical aperture engraved on the objective, for example 0.55.")
  private Double aperture;

  @Option(
      names = "--wavelength",
      paramLabel = "NM",
      defaultValue = "550",
      description = "Middle wavelength of the light in nm (default: ${DEFAULT-VALUE}, green).")
  private double wavelengthNm;

  @Option(
      names = "--node",
      paramLabel = "NM",
      description = "Process node in nm: tells which of its structures can be seen.")
  private Double nodeNm;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for inspection.json and inspection.png; made if it is not there.")
  private Path out;

  @Option(names = "--json", description = "The document on standard output instead of a table.")
  private boolean json;

  @Option(
      names = "--plane",
      paramLabel = "N",
      description = "Which picture of a file that holds several, from 1; the first by default.")
  private Integer plane;

  private final Diesurvey root;

  InspectCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    InspectionSettings known = settings();
    ScaleInput stated = scale.stated();
    Instant created = Created.moment(root.terminal());
    ReadFiles read = ReadFiles.of(List.of(photo)).and(Stated.files(scale.file()));
    Optional<DieInputException> refusal =
        out == null ? Optional.empty() : InspectionFolder.refusal(out, read);
    if (refusal.isPresent()) {
      throw refusal.get();
    }
    try (DiePhoto open = DiePhoto.open(photo, ReadLimits.defaults(), number(plane))) {
      PhotoScale chosen = PhotoScale.choose(stated, scale.mayUseTag(), open.info());
      open.requireContent();
      Optional<Calibration> pitch = ScaleOfPhoto.of(chosen.input(), open);
      InspectionSettings settings = pitch.map(known::withScale).orElse(known);
      Inspection inspection = PhotoInspector.inspect(open, settings);
      if (out != null) {
        InspectionFolder.write(inspection, open.pixels(), out, created, read);
      }
      tell(inspection, created);
      return ExitCode.DONE;
    } catch (DieInputException e) {
      root.terminal().remark("diesurvey: " + new PhotoOutcome.Rejected(photo, e).sentence());
      root.trace(e);
      return e.reason() == DieInputException.Reason.OUTPUT_NOT_WRITABLE
          ? ExitCode.WRONG_CALL
          : ExitCode.SOME_REJECTED;
    }
  }

  private void tell(Inspection inspection, Instant created) {
    if (json) {
      String text =
          new String(
              InspectionJson.write(inspection, Optional.of(created)), StandardCharsets.UTF_8);
      root.terminal().out().print(text);
      root.terminal().out().flush();
    } else {
      new InspectionTable(root.terminal()).print(photo, inspection, Optional.ofNullable(out));
    }
  }

  private InspectionSettings settings() {
    InspectionSettings s = InspectionSettings.defaults();
    if (!(wavelengthNm >= 100 && wavelengthNm <= 2000)) {
      throw new WrongOption("--wavelength", "must be 100 to 2000 nm, was " + wavelengthNm);
    }
    s = s.withWavelengthNm(wavelengthNm);
    if (aperture != null) {
      if (!(aperture >= 0.01 && aperture <= 1.7)) {
        throw new WrongOption(
            "--na", "must be a numerical aperture of 0.01 to 1.7, was " + aperture);
      }
      s = s.withAperture(aperture);
    }
    if (nodeNm != null) {
      if (!(nodeNm >= 3 && nodeNm <= 10000)) {
        throw new WrongOption("--node", "must be a process node from 3 to 10000 nm, was " + nodeNm);
      }
      s = s.withNodeNm(nodeNm);
    }
    return s;
  }

  private static OptionalInt number(Integer stated) {
    if (stated != null && stated < 1) {
      throw new WrongOption("--plane", "must be the number of a picture, 1 or more, was " + stated);
    }
    return stated == null ? OptionalInt.empty() : OptionalInt.of(stated);
  }
}
