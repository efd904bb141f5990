package org.diesurvey.cli;

import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.report.ExportKind;
import org.diesurvey.report.SurveyExport;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.SurveyDocument;
import org.diesurvey.survey.json.SurveyJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.TypeConversionException;

/** Writes a survey as a file of another kind. */
@Command(
    name = "export",
    description = {
      "Writes the outlines, measures or label map of a survey as a file for another program, or its"
          + " report as PDF. The outlines of geojson, svg, gdsii and annotations can be read back"
          + " after they were corrected.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "Kinds:",
      "  geojson      outlines in um of the die (y up); without a scale in px",
      "  svg          outlines over the linked photograph, one group for each class, in px",
      "  gdsii        outlines at true scale in um; database unit 1 nm; layer and datatype:",
      "               0/0 die outline, 1/0 memory array, 1/1 bit-cell array, 2/0 hard macro,",
      "               3/0 logic, 4/0 pad ring, 255/0 unclear; outlines with holes are cut open",
      "  annotations  W3C Web Annotations of the photograph (JSON-LD, SVG selectors), in px",
      "  csv          one row for each region",
      "  tiff         label map with the pixel pitch as resolution",
      "  ome-tiff     label map with the pixel pitch in OME-XML",
      "  pdf          the report for archives",
      "",
      "Examples:",
      "  diesurvey export surveys/die --as svg --photo die.png --out die-outlines.svg",
      "  diesurvey export surveys/die --as gdsii --out die.gds",
      "  diesurvey export surveys/die/survey.json --as pdf --out die.pdf",
      "",
      "Outlines and areas are estimates from a picture: check them by eye."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the file was written",
      "2:wrong call or unusable survey, nothing was written",
      "70:a fault of this program"
    })
final class ExportCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "SURVEY",
      description = "The folder of a surveyed photograph, or its survey.json.")
  private Path survey;

  @Option(
      names = "--as",
      required = true,
      paramLabel = "KIND",
      converter = KindReader.class,
      completionCandidates = KindNames.class,
      description = "${COMPLETION-CANDIDATES}.")
  private ExportKind kind;

  @Option(names = "--out", required = true, paramLabel = "FILE", description = "File to write.")
  private Path out;

  @Option(
      names = "--photo",
      paramLabel = "FILE",
      description = "svg: the surveyed photograph, to be linked from where it lies.")
  private Path photo;

  @Option(
      names = "--overwrite",
      description = "Replace FILE if export wrote it and nobody has changed it since.")
  private boolean overwrite;

  /** Names of the kinds, for help and completion. */
  static final class KindNames implements Iterable<String> {
    @Override
    public Iterator<String> iterator() {
      return Stream.of(ExportKind.values()).map(ExportKind::toString).iterator();
    }
  }

  /** Reads the name of a kind. */
  static final class KindReader implements ITypeConverter<ExportKind> {
    @Override
    public ExportKind convert(String value) {
      return Stream.of(ExportKind.values())
          .filter(k -> k.toString().equals(value.toLowerCase(Locale.ROOT)))
          .findFirst()
          .orElseThrow(
              () ->
                  new TypeConversionException(
                      "'" + value + "' is none of " + String.join(", ", new KindNames())));
    }
  }

  private final Diesurvey root;

  ExportCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (Disk.there(out) && (!overwrite || !Files.isRegularFile(out))) {
      throw new WrongOption(
          "--out",
          Files.isRegularFile(out)
              ? "names a file that exists, " + out + "; add --overwrite to replace it"
              : "must name a file, but this is none: " + out);
    }
    Path file = Files.isDirectory(survey) ? survey.resolve(SurveyFolder.SURVEY) : survey;
    SurveyDocument document = SurveyJson.readDocument(file);
    Path picture = file.resolveSibling(SurveyFolder.OVERLAY);
    new SurveyExport(
            document.survey(),
            document.created().orElseGet(() -> Created.moment(root.terminal())),
            link(document),
            Optional.of(picture).filter(Files::isRegularFile))
        .write(kind, out, read(file, picture));
    root.terminal().remark("written: " + out);
    if (kind == ExportKind.SVG && photo == null) {
      root.terminal()
          .remark(
              "The drawing links the photograph by its name, "
                  + document.survey().photo().fileName()
                  + ": keep both in one folder, or name the photograph with --photo.");
    }
    return ExitCode.DONE;
  }

  private ReadFiles read(Path file, Path picture) {
    return ReadFiles.of(List.of(file, picture)).and(Stated.files(Optional.ofNullable(photo)));
  }

  private Optional<String> link(SurveyDocument document) {
    if (kind != ExportKind.SVG) {
      return Optional.empty();
    }
    if (photo == null) {
      return Optional.of(
          reference(document.survey().photo().fileName().replaceFirst("^.*[/\\\\]", "")));
    }
    try (DiePhoto given = DiePhoto.open(photo)) {
      if (!given.info().sha256().equals(document.survey().photo().sha256())) {
        throw new DieInputException(
            Reason.DOCUMENT_INVALID,
            photo
                + ": this is not the photograph that was surveyed (another SHA-256); give '"
                + document.survey().photo().fileName()
                + "' as it was then.");
      }
    }
    Path folder = out.toAbsolutePath().normalize().getParent();
    Path target = photo.toAbsolutePath().normalize();
    return Optional.of(
        target.getRoot().equals(folder.getRoot())
            ? reference(slashed(folder.relativize(target)))
            : target.toUri().toASCIIString());
  }

  private static String slashed(Path relative) {
    StringBuilder s = new StringBuilder();
    for (Path part : relative) {
      s.append(s.isEmpty() ? "" : "/").append(part);
    }
    return s.toString();
  }

  /** A relative path as a reference in which no character of a name has a meaning of its own. */
  private static String reference(String path) {
    try {
      String encoded = new URI(null, null, "/" + path, null).toASCIIString().substring(1);
      return encoded.contains(":") ? "./" + encoded : encoded;
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }
}
