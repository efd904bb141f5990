package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.regex.PatternSyntaxException;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.PhotoLabels;
import org.diesurvey.archive.PhotoSurveyor;
import org.diesurvey.archive.run.BatchRun;
import org.diesurvey.archive.run.LeftOut;
import org.diesurvey.archive.run.Manifest;
import org.diesurvey.archive.run.PhotoSearch;
import org.diesurvey.archive.worker.ClusterSurveyor;
import org.diesurvey.archive.worker.IsolatedSurveyor;
import org.diesurvey.archive.worker.LocalSurveyor;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.vision.NativeLibrary;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Surveys many photographs into an archive. */
@Command(
    name = "batch",
    description = {
      "Surveys many photographs unattended into an archive that can be searched and checked. Stop"
          + " it at any moment and call it again: what is done stays done.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every photograph has a survey in the archive",
      "1:some photographs were rejected or not finished, the others are done",
      "2:wrong call, a bad manifest, the archive cannot be written, or a file in it that is not its"
          + " own is in the way of a survey"
    },
    footer = {
      "",
      "INPUT is a photograph, a folder (searched with all folders below it), or a manifest: a CSV"
          + " file (RFC 4180, UTF-8) with one line for each photograph and these columns, of which"
          + " only the first is required:",
      "  photo        path of the file, relative to the manifest",
      "  um_per_px    pixel pitch, um per pixel; where empty, what the options state",
      "  u_um_per_px  its standard uncertainty (k = 1)",
      "  scale_origin how the pitch is known, in your words; kept with the survey",
      "  node_nm      process node, if known",
      "  plane        which picture of a file that holds several, from 1",
      "  die_name, revision, layer, notes    kept with the survey, never change it",
      "",
      "A photograph is done again only if its bytes, its scale or node, the model, the densities or"
          + " the version of this program changed.",
      "",
      "Examples:",
      "  diesurvey batch trays/ --um-per-px 0.5+-0.002 --archive archive",
      "  diesurvey batch lot7.csv --archive archive",
      "  diesurvey batch trays/ --pattern \"*-20x.tif\" --scale objective-20x.json --archive"
          + " archive",
      "  then open archive/index.html, or: diesurvey archive find archive \"memory share > 40 %%\""
    })
final class BatchCommand implements Callable<Integer> {
  private static final int OWN_HEAP_MIB = 512;

  /** Time for one photograph where none is stated, s. */
  private static final double LIMIT_S = 600;

  private static final int LEAST_UNDER_WAY = 64;
  private static final int UNDER_WAY_EACH = 4;

  @Parameters(
      paramLabel = "INPUT",
      arity = "1..*",
      description =
          "Photographs, folders of photographs, manifests (.csv); with --engine spark also URIs of"
              + " photographs and folders in a store that the cluster reads.")
  private List<String> inputs;

  @Option(
      names = "--archive",
      required = true,
      paramLabel = "DIR",
      description =
          "Folder of the archive; made if it is not there, added to if it is one. With --engine"
              + " spark also the URI of a folder in a store that the cluster writes, for example"
              + " s3a://lab/archive.")
  private String archive;

  @Option(
      names = "--pattern",
      paramLabel = "GLOB",
      description =
          "Which files of a folder are photographs, for example \"*.tif\"; held against the name,"
              + " or against the path below the folder if it has a slash. May be given again. PNG,"
              + " JPEG and TIFF by their endings by default.")
  private List<String> patterns = List.of();

  @Mixin private ScaleOptions scale;

  @Mixin private DensityOptions densities;

  @Mixin private ModelOptions model;

  @Option(
      names = "--isolate",
      negatable = true,
      description =
          "Survey in processes of their own, so that a file that makes a decoder crash, hang or eat"
              + " the memory costs that file only. Default where an INPUT is a folder;"
              + " --no-isolate turns it off.")
  private Boolean isolate;

  @Option(
      names = "--engine",
      paramLabel = "ENGINE",
      defaultValue = "local",
      description =
          "Where photographs are surveyed: ${COMPLETION-CANDIDATES}. spark: on the Apache Spark"
              + " cluster of SPARK_HOME; DIR must lie on a disk that all its computers see under"
              + " the same path, or in a store. The files are the same. Default ${DEFAULT-VALUE};"
              + " spark where spark-submit has started this program.")
  private Engine engine;

  @Option(
      names = "--spark-options",
      paramLabel = "WORDS",
      defaultValue = "",
      description =
          "Words for spark-submit, for example \"--master spark://HOST:7077 --executor-cores 4\".")
  private String sparkOptions;

  @Option(
      names = "--staging",
      paramLabel = "DIR",
      description =
          "Folder of this computer for the database while it is written, where the archive lies in"
              + " a store; a temporary folder by default.")
  private Path staging;

  @Option(
      names = "--take-over",
      description =
          "Write to an archive in a store although a run holds it, because that run was killed.")
  private boolean takeOver;

  @Option(names = "--pdf", description = "Also write report.pdf for each photograph.")
  private boolean pdf;

  @Option(names = "--quiet", description = "No progress; rejections are still told.")
  private boolean quiet;

  /** Where photographs are surveyed. */
  enum Engine {
    local,
    spark
  }

  private final Diesurvey root;
  private LeftOut leftOut = LeftOut.NOTHING;

  BatchCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    Instant created = Created.moment(root.terminal());
    Optional<String> cluster = SparkEngine.address(root.terminal().environment());
    if (cluster.isPresent() || SparkEngine.submitted()) {
      engine = Engine.spark;
    }
    if (inStore() && engine != Engine.spark) {
      throw new WrongOption(
          "--archive", archive + " lies in a store, which only --engine spark can write");
    }
    if (engine == Engine.spark && cluster.isEmpty()) {
      return onSpark();
    }
    DieSegmenter segmenter = segmenter(model, densities);
    BatchLog log = new BatchLog(root, quiet);
    BatchProgress reached =
        engine == Engine.spark
            ? elsewhere(cluster.get(), segmenter, log, created)
            : here(segmenter, log, created);
    log.end(reached, inStore() ? archive.replaceAll("/+$", "") + "/index.html" : index());
    if (log.somethingInTheWay()) {
      return ExitCode.WRONG_CALL;
    }
    return reached.rejected() + reached.failed() > 0 ? ExitCode.SOME_REJECTED : ExitCode.DONE;
  }

  private String index() {
    return folder().resolve("index.html").toString();
  }

  /** A URI of a file is as good as its path. */
  private boolean inStore() {
    return isUri(archive) && !archive.startsWith("file:");
  }

  private Path folder() {
    return archive.startsWith("file:/") ? Path.of(URI.create(archive)) : Path.of(archive);
  }

  private BatchProgress here(DieSegmenter segmenter, BatchLog log, Instant created) {
    List<BatchPhoto> photos = photos(null);
    try (PhotoSurveyor surveyor = surveyor(segmenter)) {
      return new BatchRun(
              folder(),
              read(photos),
              surveyor,
              model.threads(),
              Runtime.getRuntime().maxMemory(),
              created)
          .run(photos, log);
    }
  }

  /** Inputs of this computer are looked at first, so that a mistake is told at once. */
  private int onSpark() {
    if (inputs.stream().noneMatch(BatchCommand::isUri)) {
      photos(null);
    }
    try {
      return SparkEngine.run(root, SparkEngine.words(sparkOptions));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
  }

  /** Enough photographs are under way that no computer waits for the next. */
  private BatchProgress elsewhere(
      String cluster, DieSegmenter segmenter, BatchLog log, Instant created) {
    String[] address = cluster.split(":", 2);
    List<String> words = workerWords("@");
    LocalSurveyor twin = local(segmenter);
    try (ClusterSurveyor surveyor =
        ClusterSurveyor.connect(
            Integer.parseInt(address[0]), address[1], words, twin.identity(), limit())) {
      int underWay =
          Math.min(
              BatchRun.MAX_WORKERS, Math.max(LEAST_UNDER_WAY, UNDER_WAY_EACH * surveyor.slots()));
      List<BatchPhoto> photos = photos(surveyor);
      return run(surveyor, photos, underWay, created).run(photos, log);
    }
  }

  /** What the call reads: photographs, manifests, and the files that options name. */
  private ReadFiles read(List<BatchPhoto> photos) {
    return ReadFiles.of(
            photos.stream().filter(p -> p.stored().isEmpty()).map(BatchPhoto::file).toList())
        .and(inputs.stream().filter(i -> !isUri(i)).map(Path::of).toList())
        .and(Stated.files(model.file(), scale.file(), densities.file()));
  }

  private BatchRun run(
      ClusterSurveyor surveyor, List<BatchPhoto> photos, int underWay, Instant created) {
    if (!inStore()) {
      return new BatchRun(folder(), read(photos), surveyor, underWay, Long.MAX_VALUE, created);
    }
    Path beside = staging == null ? Path.of(System.getProperty("java.io.tmpdir")) : staging;
    return BatchRun.inStore(
        surveyor.store(URI.create(archive)), beside, takeOver, surveyor, underWay, created);
  }

  private List<BatchPhoto> photos(ClusterSurveyor stores) {
    ScaleInput stated = scale.stated();
    Map<String, BatchPhoto> photos = new LinkedHashMap<>();
    leftOut = LeftOut.NOTHING;
    for (String input : inputs) {
      for (BatchPhoto photo :
          isUri(input) ? stored(URI.create(input), stated, stores) : photos(input, stated)) {
        photos.putIfAbsent(photo.place(), photo);
      }
    }
    Optional<String> passedOver = leftOut.sentence();
    if (photos.isEmpty()) {
      throw new WrongOption(
          "INPUT",
          "holds no photographs; see --pattern" + passedOver.map(s -> " (" + s + ")").orElse(""));
    }
    if (!quiet) {
      passedOver.ifPresent(root.terminal()::remark);
    }
    return new ArrayList<>(photos.values());
  }

  private static boolean isUri(String input) {
    return input.matches("[A-Za-z][A-Za-z0-9+.-]+:/.*");
  }

  private List<BatchPhoto> stored(URI input, ScaleInput stated, ClusterSurveyor stores) {
    if (stores == null) {
      throw new WrongOption(
          "INPUT", input + " lies in a store, which only --engine spark can read");
    }
    PhotoSearch.Found<URI> found = PhotoSearch.stored(input, stores.list(input), patterns);
    leftOut = leftOut.and(found.leftOut());
    return found.photos().stream()
        .map(file -> BatchPhoto.stored(file, stated, OptionalDouble.empty(), PhotoLabels.NONE))
        .toList();
  }

  private List<BatchPhoto> photos(String name, ScaleInput stated) {
    Path input = Path.of(name);
    if (Files.isDirectory(input)) {
      try {
        PhotoSearch.Found<Path> found = PhotoSearch.below(input, patterns);
        leftOut = leftOut.and(found.leftOut());
        return found.photos().stream().map(file -> BatchPhoto.of(file, stated)).toList();
      } catch (PatternSyntaxException e) {
        throw new WrongOption("--pattern", "is no glob pattern: " + e.getDescription());
      }
    }
    return name.toLowerCase(Locale.ROOT).endsWith(".csv")
        ? Manifest.read(input, stated, densities.estimator().table())
        : List.of(BatchPhoto.of(input, stated));
  }

  private PhotoSurveyor surveyor(DieSegmenter segmenter) {
    LocalSurveyor local = local(segmenter);
    boolean apart =
        isolate == null ? inputs.stream().anyMatch(i -> Files.isDirectory(Path.of(i))) : isolate;
    return apart ? new IsolatedSurveyor(workerCommand(), local.identity(), limit()) : local;
  }

  private LocalSurveyor local(DieSegmenter segmenter) {
    return new LocalSurveyor(segmenter, new TaggedScales(scale.mayUseTag()), limit(), pdf);
  }

  private Duration limit() {
    double seconds = root.timeLimit().orElse(LIMIT_S);
    return Duration.ofMillis(Math.max(1, Math.round(1000 * seconds)));
  }

  private List<String> workerCommand() {
    long heapMib = Runtime.getRuntime().maxMemory() / (1 << 20);
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Xmx" + Math.max(OWN_HEAP_MIB, heapMib / model.threads()) + "m");
    command.add("-Djava.awt.headless=true");
    String folder = System.getProperty(NativeLibrary.FOLDER);
    if (folder != null) {
      command.add("-D" + NativeLibrary.FOLDER + "=" + folder);
    }
    command.add(
        "-XX:ErrorFile=" + System.getProperty("java.io.tmpdir") + "/diesurvey-crash-%p.log");
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(Diesurvey.class.getName());
    command.add("batch-worker");
    command.addAll(workerWords(""));
    return command;
  }

  /** Options of a worker; names of files are marked. */
  private List<String> workerWords(String mark) {
    List<String> words = new ArrayList<>();
    model.file().ifPresent(f -> words.addAll(List.of("--model", mark + f.toAbsolutePath())));
    words.addAll(densities.words(mark));
    if (pdf) {
      words.add("--pdf");
    }
    if (!scale.mayUseTag()) {
      words.add("--no-scale");
    }
    return words;
  }

  static DieSegmenter segmenter(ModelOptions model, DensityOptions densities) {
    DieSegmenter segmenter = model.segmenter().with(densities.estimator());
    return densities.nodeNm().isEmpty()
        ? segmenter
        : segmenter.with(segmenter.settings().withNodeNm(densities.nodeNm().getAsDouble()));
  }
}
