package org.diesurvey.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.IntStream;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.training.ModelTrainer;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.Workers;
import org.diesurvey.synthetic.LayoutLibrary;
import org.diesurvey.training.ModelTraining;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Trains the tile classifier on drawn dies. */
@Command(
    name = "train",
    description = {
      "Draws dies with known truth, learns what memory, macros, logic, pads and bare surface look"
          + " like, and writes a model for segment --model.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "The same numbers give the same model, byte for byte, with any number of threads. The shipped"
          + " model was made with the values that are the defaults here and --layouts, in 40"
          + " minutes on two processors.",
      "",
      "Example:",
      "  diesurvey train --dies 100 --seed 1 --out my-model.json.gz",
      "  diesurvey segment die.tif --um-per-px 0.5 --model my-model.json.gz --out surveys"
    })
final class TrainCommand implements Callable<Integer> {
  /** Fewest dies that give a usable model: the trainer halves them and leaves out every tenth. */
  private static final int FEWEST_DIES = 40;

  /** Sparse dies over the others, as the shipped model has them. */
  private static final double SPARSE_SHARE = 700 / 1500.0;

  @Option(
      names = "--dies",
      paramLabel = "N",
      defaultValue = "1500",
      description = {
        "How many dies are drawn, 40 to 100000; ${DEFAULT-VALUE} by default. All teach the look"
            + " at a tile, the second half of them also the look at its surroundings."
      })
  private int dies;

  @Option(
      names = "--sparse",
      paramLabel = "N",
      description = {
        "How many more dies are drawn with pieces in bare ground and rows of fill cells, 0 to"
            + " 100000; by default in proportion, 700 for 1500. They are shared between the looks"
            + " in the same way."
      })
  private Integer sparse;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "1000",
      description = "Seed of the first die, 0 or more; ${DEFAULT-VALUE} by default.")
  private int seed;

  @Option(
      names = "--tiles",
      paramLabel = "N",
      defaultValue = "60",
      description = "At most so many tiles of one class from one die; ${DEFAULT-VALUE} by default.")
  private int tiles;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      defaultValue = "3",
      description = "Largest drawn photograph, MP; ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      defaultValue = "tile-model.json.gz",
      description =
          "Model file; ${DEFAULT-VALUE} by default. One that is there is replaced if it is"
              + " a model.")
  private Path out;

  @Mixin private LayoutOptions layouts;

  @Option(
      names = "--without",
      paramLabel = "TECHNOLOGY",
      description =
          "Leave out the dies with blocks of this technology (the beginning of its name), for a"
              + " score on them.")
  private String without;

  @Option(
      names = "--judge-on",
      paramLabel = "TECHNOLOGY",
      defaultValue = "GF180MCU",
      description =
          "Confidence is fitted on dies that its models have not seen: every tenth, and all with"
              + " blocks of this technology (the beginning of its name); ${DEFAULT-VALUE} by"
              + " default. The model itself learns from all.")
  private String judgeOn;

  @Option(
      names = "--work",
      paramLabel = "DIR",
      description =
          "Folder that keeps the dies as they were drawn and worked out, about 7 GB for 1000, so"
              + " that a run that is ended goes on; by default a temporary one beside --out.")
  private Path work;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Worker threads; all processors by default. Never changes the model.")
  private Integer threads;

  @Option(names = "--quiet", description = "No progress.")
  private boolean quiet;

  private final Diesurvey root;

  TrainCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    int workers = threads == null ? SegmentSettings.defaults().threads() : threads;
    range("--threads", workers, 1, 256);
    range("--dies", dies, FEWEST_DIES, 100_000);
    int sparseDies = sparseDies();
    range("--sparse", sparseDies, 0, 100_000);
    range("--seed", seed, 0, TrainingDies.SPARSE_SEEDS - 200_000);
    range("--tiles", tiles, 1, 100_000);
    if (!(megapixels >= 0.2 && megapixels <= 200)) {
      throw new WrongOption("--megapixels", "must be from 0.2 to 200 MP, was " + megapixels);
    }
    if (Files.isDirectory(out)) {
      throw new WrongOption("--out", "must name a file, but " + out + " is a folder");
    }
    OwnFiles model = model(out, ReadFiles.NONE);
    require(model, out);
    SurveyFolders.prepare(out.toAbsolutePath().getParent());
    Optional<LayoutLibrary> library = layouts.library();
    Path target = out.toAbsolutePath();
    Path kept = work == null ? target.resolveSibling(target.getFileName() + ".dies") : work;
    TrainingStore store = TrainingStore.open(kept, megapixels, library);
    List<Integer> early = seeds(0, dies / 2, 0, sparseDies / 2);
    List<Integer> late = seeds(dies / 2, dies, sparseDies / 2, sparseDies);
    List<Integer> all = new ArrayList<>(early);
    all.addAll(late);
    draw(store, all, library, workers);
    ModelTraining.Result trained =
        Workers.run(workers, "training", () -> train(store, early, late, library));
    TileClassifier classifier = trained.classifier();
    write(model, classifier.bytes(), out);
    if (work == null) {
      store.remove(all);
    }
    result("by a tile's own features", trained.firstTiles(), all.size(), trained.first());
    result("by its surroundings too", trained.secondTiles(), late.size(), trained.second());
    root.terminal()
        .result(
            String.format(
                Locale.ROOT,
                "by blocks: %d of %d dies; on dies left out, %.1f %% named rightly, the large ones"
                    + " counting more",
                trained.blocks(),
                late.size(),
                100 * trained.blocksRight()));
    root.terminal().result("model    " + out);
    root.terminal().result("SHA-256  " + classifier.sha256());
    return ExitCode.DONE;
  }

  private int sparseDies() {
    return sparse == null ? (int) Math.round(dies * SPARSE_SHARE) : sparse;
  }

  /** Seeds of a part of the dies and of the sparse ones. */
  private List<Integer> seeds(int from, int to, int sparseFrom, int sparseTo) {
    return IntStream.concat(
            IntStream.range(seed + from, seed + to),
            IntStream.range(seed + sparseFrom, seed + sparseTo)
                .map(s -> s + TrainingDies.SPARSE_SEEDS))
        .boxed()
        .toList();
  }

  private void result(String what, int tiles, int dies, ModelTrainer.Trained trained) {
    root.terminal()
        .result(
            String.format(
                Locale.ROOT,
                "%s: %d tiles of %d dies; on dies left out, by a model trained on the others: %.1f"
                    + " %% of tiles right (classes weighted alike), expected calibration error"
                    + " %.3f",
                what,
                tiles,
                dies,
                100 * trained.accuracyLeftOut(),
                trained.calibrationErrorLeftOut()));
  }

  /** Draws and works out what the store lacks. */
  private void draw(
      TrainingStore store, List<Integer> dies, Optional<LayoutLibrary> library, int workers) {
    List<Long> missing = store.missing(dies);
    Progress progress = root.progress(quiet, missing.size());
    AtATime.each(
        missing,
        workers,
        one -> {
          store.keep(one, s -> TrainingDies.draw(s, TrainingDies.options(s, megapixels), library));
          synchronized (progress) {
            progress.begin("die " + one);
            progress.end("drawn");
          }
          return one;
        });
  }

  private ModelTraining.Result train(
      TrainingStore store,
      List<Integer> early,
      List<Integer> late,
      Optional<LayoutLibrary> library) {
    String name =
        String.format(Locale.ROOT, "drawn dies %d and %d from seed %d", dies, sparseDies(), seed);
    ModelTraining.Plan plan =
        new ModelTraining.Plan(
            name, facts(library), early, late, tiles, Optional.ofNullable(without), judgeOn);
    return ModelTraining.of(store::read, plan, new Told());
  }

  /** Tells the parts of a training as they go. */
  private final class Told implements ModelTraining.Listener {
    private Progress progress;

    @Override
    public void part(String name, int dies) {
      progress = root.progress(quiet, dies);
    }

    @Override
    public void read(int die, String part) {
      progress.begin("die " + die);
      progress.end(part);
    }
  }

  private SortedMap<String, String> facts(Optional<LayoutLibrary> library) {
    SortedMap<String, String> facts = new TreeMap<>();
    facts.put("dies", Integer.toString(dies));
    facts.put("sparse_dies", Integer.toString(sparseDies()));
    facts.put("first_seed", Integer.toString(seed));
    facts.put("tiles_per_class_and_die", Integer.toString(tiles));
    library.ifPresent(l -> facts.put("layouts", l.fingerprint()));
    facts.put("judged_on", judgeOn);
    if (without != null) {
      facts.put("without", without);
    }
    facts.put("megapixels", Double.toString(megapixels));
    facts.put("tile_um", Double.toString(SegmentSettings.DEFAULT_TILE_UM));
    return facts;
  }

  private static void range(String option, int value, int low, int high) {
    if (value < low || value > high) {
      throw new WrongOption(option, "must be from " + low + " to " + high + ", was " + value);
    }
  }

  /** The file of a model; in its place only a model is replaced. */
  static OwnFiles model(Path file, ReadFiles read) {
    return OwnFiles.telling(file, ModelOptions::isModel, read);
  }

  static void require(OwnFiles model, Path file) {
    Optional<DieInputException> refusal = model.refusal(Set.of(name(file)));
    if (refusal.isPresent()) {
      throw refusal.get();
    }
  }

  static void write(OwnFiles model, byte[] bytes, Path file) {
    model.write(Map.of(name(file), bytes));
  }

  private static String name(Path file) {
    return file.toAbsolutePath().normalize().getFileName().toString();
  }
}
