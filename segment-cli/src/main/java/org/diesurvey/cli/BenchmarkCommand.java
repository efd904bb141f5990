package org.diesurvey.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.vision.DecodeYardstick;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Measures whole runs, each in a fresh process, as a user sees them. */
@Command(
    name = "benchmark",
    hidden = true,
    sortOptions = false,
    description = {
      "Draws dies once and surveys each several times in a fresh process: megapixels per second,"
          + " wall time with the start of Java, peak resident memory, and the share of each stage.",
      ""
    })
final class BenchmarkCommand implements Callable<Integer> {
  private static final double UM_PER_PX = 0.5;
  private static final long SEED = 48;

  /** Larger photographs are this one enlarged: drawing them would take longer than surveying. */
  private static final double MOST_DRAWN_MEGAPIXELS = 200;

  /** Pitch that is stated for those, so that a survey has as many tiles as a large die gives. */
  private static final double LARGE_UM_PER_PX = 0.25;

  /** Of which the fastest counts. */
  private static final int YARDSTICK_RUNS = 5;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      split = ",",
      defaultValue = "12,48",
      description =
          "Sizes of the photographs; ${DEFAULT-VALUE} by default. Those of more than 200 are one of"
              + " 200 enlarged, as a tiled TIFF said to have 0.25 um/px. The heap that a survey may"
              + " take is set with DIESURVEY_JAVA_OPTS.")
  private List<Double> sizes = new ArrayList<>();

  @Option(
      names = "--runs",
      paramLabel = "N",
      defaultValue = "3",
      description = "Runs for each photograph; ${DEFAULT-VALUE} by default.")
  private int runs;

  @Option(
      names = "--batch",
      paramLabel = "N",
      description =
          "Measure a batch of N photographs of the first size instead, against one process each.")
  private int photos;

  @Option(
      names = "--corrupt",
      paramLabel = "K",
      description = "How many of the photographs of --batch to damage; none by default.")
  private int corrupt;

  @Option(
      names = "--long",
      paramLabel = "N",
      description =
          "Survey the photograph of the first size N times in one process instead, and tell the"
              + " memory ten times on the way; 10 or more.")
  private Integer surveys;

  @Option(
      names = "--work",
      paramLabel = "DIR",
      description = "Folder for photographs and surveys; one in the temporary folder by default.")
  private Path work;

  @Option(
      names = "--model",
      paramLabel = "FILE",
      description = "Model; the shipped one by default.")
  private Path model;

  private final Diesurvey root;

  BenchmarkCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (runs < 1 || runs > 1000) {
      throw new WrongOption("--runs", "must be from 1 to 1000, was " + runs);
    }
    Path folder =
        work != null ? work : Path.of(System.getProperty("java.io.tmpdir"), "diesurvey-benchmark");
    if (corrupt < 0 || corrupt > photos) {
      throw new WrongOption("--corrupt", "must be from 0 to the number of --batch, was " + corrupt);
    }
    if (surveys != null && surveys < 10) {
      throw new WrongOption("--long", "must be 10 or more, was " + surveys);
    }
    SurveyFolders.prepare(folder);
    try {
      if (surveys != null) {
        Path photo = photo(sizes.get(0), folder);
        new LongRun(
                root.terminal(),
                photo,
                UM_PER_PX,
                folder,
                model == null
                    ? DieSegmenter.withDefaults()
                    : DieSegmenter.of(ModelOptions.read(model)))
            .run(surveys);
        return ExitCode.DONE;
      }
      if (photos > 0) {
        new BatchBenchmark(root.terminal(), folder, photos, corrupt, sizes.get(0), modelWords())
            .run();
        return ExitCode.DONE;
      }
      for (double megapixels : sizes) {
        measure(photo(megapixels, folder), folder.resolve("surveys"));
      }
      return ExitCode.DONE;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
  }

  /** The die of this size, made unless it is there from an earlier call. */
  private Path photo(double megapixels, Path folder) throws IOException {
    return megapixels <= MOST_DRAWN_MEGAPIXELS
        ? drawn(megapixels, folder)
        : enlarged(megapixels, folder);
  }

  private Path enlarged(double megapixels, Path folder) throws IOException {
    Path small = drawn(MOST_DRAWN_MEGAPIXELS, folder);
    Path photo = folder.resolve(String.format(Locale.ROOT, "die-%.0f-mp.tif", megapixels));
    if (!Files.exists(photo)) {
      root.terminal().remark("enlarging to " + photo.getFileName());
      Path part = photo.resolveSibling(photo.getFileName() + ".part");
      EnlargedPhoto.write(small, Math.sqrt(megapixels / megapixels(small)), part);
      Files.move(part, photo);
    }
    return photo;
  }

  private static double megapixels(Path photo) {
    try (DiePhoto open = DiePhoto.open(photo)) {
      return open.info().widthPx() / 1e6 * open.info().heightPx();
    }
  }

  private Path drawn(double megapixels, Path folder) throws IOException {
    String name = String.format(Locale.ROOT, "die-%.0f-mp", megapixels);
    Path photo = folder.resolve(name + ".jpg");
    if (!Files.exists(photo)) {
      root.terminal().remark("drawing " + name);
      DrawnDie die =
          DieDrawing.draw(
              SEED,
              DrawOptions.defaults()
                  .withUmPerPx(UM_PER_PX)
                  .withMaxMegapixels(megapixels)
                  .withNodes(135, 125)
                  .withFraming(DrawOptions.Framing.WHOLE_DIE)
                  .withStyle(DrawOptions.Style.SHOWPIECE));
      DrawnFiles.write(die, folder, name, DieFiles.Format.JPG);
    }
    return photo;
  }

  private void measure(Path photo, Path out) throws IOException, InterruptedException {
    double megapixels = megapixels(photo);
    List<FreshProcess.Result> results = new ArrayList<>();
    Columns table = new Columns();
    table.row("run", "wall s", "MP/s", "peak resident MiB");
    for (int i = 1; i <= runs; i++) {
      FreshProcess.Result r = FreshProcess.run(command(photo, out), ExitCode.DONE);
      results.add(r);
      table.row(
          Integer.toString(i),
          Figures.fixed(r.wallSeconds(), 2),
          Figures.fixed(megapixels / r.wallSeconds(), 2),
          FreshProcess.mib(r.peakResidentKib()));
    }
    root.terminal()
        .result(
            String.format(
                Locale.ROOT,
                "%s: %.1f MP, %d processors",
                photo.getFileName(),
                megapixels,
                Runtime.getRuntime().availableProcessors()));
    table.lines(2).forEach(root.terminal()::result);
    results.sort(Comparator.comparingDouble(FreshProcess.Result::wallSeconds));
    FreshProcess.Result middle = results.get(results.size() / 2);
    if (megapixels <= MOST_DRAWN_MEGAPIXELS) {
      double yardstick = DecodeYardstick.seconds(photo, YARDSTICK_RUNS);
      root.terminal()
          .result(
              String.format(
                  Locale.ROOT,
                  "  decoding by OpenCV and a pyramid of five levels %.2f s; the middle run took"
                      + " %.1f times as long",
                  yardstick,
                  middle.wallSeconds() / yardstick));
    }
    root.terminal().result("  share of time of the middle run");
    stages(middle).lines(4).forEach(root.terminal()::result);
    root.terminal().result("");
  }

  private List<String> command(Path photo, Path out) {
    List<String> words = new ArrayList<>(FreshProcess.thisProgram());
    words.addAll(
        List.of("segment", photo.toString(), "--json", "--quiet", "--out", out.toString()));
    boolean large = photo.toString().endsWith(".tif");
    words.addAll(List.of("--um-per-px", (large ? LARGE_UM_PER_PX : UM_PER_PX) + "+-0.001"));
    words.addAll(modelWords());
    return words;
  }

  /** Absolute, since other processes read it. */
  private List<String> modelWords() {
    return model == null ? List.of() : List.of("--model", model.toAbsolutePath().toString());
  }

  private static Columns stages(FreshProcess.Result r) throws IOException {
    Map<String, Double> seconds = new LinkedHashMap<>();
    JsonNode line = JsonMapper.builder().build().readTree(r.output());
    line.path("seconds")
        .properties()
        .forEach(e -> seconds.put(e.getKey(), e.getValue().asDouble()));
    double known = seconds.values().stream().mapToDouble(Double::doubleValue).sum();
    seconds.put("start of Java, model, end", r.wallSeconds() - known);
    Columns table = new Columns();
    seconds.forEach(
        (stage, s) ->
            table.row(
                stage,
                Figures.fixed(s, 2) + " s",
                Figures.fixed(100 * s / r.wallSeconds(), 1) + " %"));
    return table;
  }
}
