package org.diesurvey.campaign;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.run.Manifest;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.CalibrationFile;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.estimates.DensityTable;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.report.ExportKind;
import org.diesurvey.report.SurveyExport;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;

/**
 * Reads files one by one: each line in is a kind, a path and whether a photograph is surveyed as
 * well; each line out is what came of it.
 */
final class CampaignWorker {
  private static final Instant MOMENT = Instant.parse("2026-01-31T12:34:56Z");
  private static final List<ExportKind> EXPORTS =
      List.of(
          ExportKind.GEOJSON,
          ExportKind.SVG,
          ExportKind.GDSII,
          ExportKind.ANNOTATIONS,
          ExportKind.CSV,
          ExportKind.PDF);

  private CampaignWorker() {}

  public static void main(String[] args) throws IOException {
    PrintStream out = System.out;
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    for (String line = in.readLine(); line != null; line = in.readLine()) {
      String[] words = line.split("\t", -1);
      out.println(outcome(CampaignKind.valueOf(words[0]), Path.of(words[1]), words[2].equals("1")));
      out.flush();
    }
  }

  static String outcome(CampaignKind kind, Path file, boolean survey) {
    try {
      read(kind, file, survey);
      return "read";
    } catch (DieInputException e) {
      return e.getMessage().endsWith(".")
          ? "refused " + e.reason()
          : "FAULT no sentence: " + oneLine(e.getMessage());
    } catch (Throwable e) {
      StackTraceElement[] trace = e.getStackTrace();
      return "FAULT "
          + oneLine(e.toString())
          + Stream.of(trace).limit(6).map(t -> " < " + t).collect(Collectors.joining());
    }
  }

  private static String oneLine(String text) {
    String plain = text.replaceAll("\\p{Cntrl}", "?");
    return plain.substring(0, Math.min(300, plain.length()));
  }

  private static void read(CampaignKind kind, Path file, boolean survey) throws IOException {
    if (kind.isPhoto()) {
      photo(file, survey);
      return;
    }
    switch (kind) {
      case SURVEY -> exports(SurveyJson.read(file), file);
      case CALIBRATION -> CalibrationFile.read(file);
      case MANIFEST -> Manifest.read(file, new ScaleInput.None(), DensityTable.shipped());
      case DENSITIES -> DensityTable.shipped().with(file);
      case MODEL_PACKED, MODEL_TEXT -> TileClassifier.of(Files.readAllBytes(file), file.toString());
      default -> OutlineFiles.read(file);
    }
  }

  private static void photo(Path file, boolean survey) throws IOException {
    try (DiePhoto photo = DiePhoto.open(file)) {
      PixelSource pixels = photo.pixels();
      int rows = Math.min(pixels.height(), 200);
      int columns = Math.min(pixels.width(), 200);
      pixels.readGray(new PixelRect(0, 0, columns, rows), new float[columns * rows]);
      photo.requireContent();
      if (survey && pixels.width() < 2000 && pixels.height() < 2000) {
        Survey found =
            DieSegmenter.withDefaults().segment(photo, Calibration.ofPixelPitch(1, 0.01));
        Path out = Files.createDirectories(file.resolveSibling(file.getFileName() + ".out"));
        SurveyFolder.write(found, pixels, out.resolve("survey"), MOMENT);
        requireOnly(out, Set.of("survey"));
      }
    }
  }

  private static void exports(Survey survey, Path file) throws IOException {
    Path out = Files.createDirectories(file.resolveSibling(file.getFileName() + ".out"));
    Set<String> expected = new TreeSet<>();
    for (ExportKind kind : EXPORTS) {
      try {
        new SurveyExport(survey, MOMENT, Optional.empty(), Optional.empty())
            .write(kind, out.resolve("die." + kind));
        expected.add("die." + kind);
        expected.add("die." + kind + ".sha256");
      } catch (DieInputException e) {
        // Refused whole: nothing of it may be there.
      }
    }
    requireOnly(out, expected);
  }

  /** Whole results and nothing else lie in the folder; they are deleted then. */
  private static void requireOnly(Path folder, Set<String> names) throws IOException {
    List<Path> inside;
    try (Stream<Path> all = Files.list(folder)) {
      inside = all.toList();
    }
    Set<String> there = new TreeSet<>();
    inside.forEach(p -> there.add(p.getFileName().toString()));
    if (!there.equals(new TreeSet<>(names))) {
      throw new IllegalStateException("in the output folder lie " + there + ", not " + names);
    }
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path p : all.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
  }
}
