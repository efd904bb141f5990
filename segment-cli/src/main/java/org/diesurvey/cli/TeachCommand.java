package org.diesurvey.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.training.ModelTeacher;
import org.diesurvey.classification.training.TaughtTiles;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.HandOutlines;
import org.diesurvey.pipeline.OutlineTiles;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.Workers;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.training.LabelledTiles;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Adapts the model to a lab's own photographs. */
@Command(
    name = "teach",
    description = {
      "Adapts the model to your own photographs: learns from outlines that you drew or corrected"
          + " and writes a model for segment --model.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the taught model was written",
      "2:the call or the outlines cannot be used, or teaching made nothing better; nothing was"
          + " written",
      "70:a fault of this program"
    },
    footer = {
      "",
      "At least 3 outlines of 2 classes or more. Only what lies wholly inside an outline is taught,"
          + " so outlines need not cover the die; leave out what you are not sure of. The score"
          + " before and after is told on outlines left out of teaching; it is measured on"
          + " neighbours of what was taught, so another die may gain less.",
      "",
      "Example:",
      "  diesurvey teach --outlines corrected.geojson --photo die.tif --um-per-px 0.5 --model"
          + " lab.json.gz",
      "  diesurvey segment next.tif --um-per-px 0.5 --model lab.json.gz --out surveys"
    })
final class TeachCommand implements Callable<Integer> {
  /** Drawn dies that are rehearsed, and those that judge the loss; no training seed, no scored. */
  private static final int FIRST_SEED = 700_000;

  private static final int REHEARSED = 14;
  private static final int CHECKED = 6;

  @Option(
      names = "--outlines",
      required = true,
      arity = "1..*",
      paramLabel = "FILE",
      description = "Outlines with classes: GeoJSON, SVG, GDSII, annotations or survey.json.")
  private List<Path> outlines;

  @Option(
      names = "--photo",
      arity = "1..*",
      paramLabel = "FILE",
      description =
          "Photographs, one for each file of outlines in the same order. Without it the photograph"
              + " that the outlines name is looked for beside them and in the folders above.")
  private List<Path> photos = new ArrayList<>();

  @Option(
      names = "--model",
      required = true,
      paramLabel = "OUT",
      description = "File for the taught model; one that is there is replaced if it is a model.")
  private Path out;

  @Option(
      names = "--base",
      paramLabel = "FILE",
      description = "Model to start from; the shipped one by default.")
  private Path base;

  @Mixin private ScaleOptions scale;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      defaultValue = "1",
      description =
          "Size of the 20 drawn dies on which the model rehearses and is checked, 0.2 to 10 MP;"
              + " ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Worker threads, 1 to 256; all processors by default. Never changes results.")
  private Integer threads;

  @Option(names = "--quiet", description = "No progress.")
  private boolean quiet;

  private final Diesurvey root;

  TeachCommand(Diesurvey root) {
    this.root = root;
  }

  /** A photograph and its outlines. */
  private record Lesson(HandOutlines outlines, Path photo) {}

  @Override
  public Integer call() {
    int workers = threads == null ? SegmentSettings.defaults().threads() : threads;
    if (workers < 1 || workers > 256) {
      throw new WrongOption("--threads", "must be a number from 1 to 256, was " + workers);
    }
    if (!(megapixels >= 0.2 && megapixels <= 10)) {
      throw new WrongOption("--megapixels", "must be from 0.2 to 10 MP, was " + megapixels);
    }
    if (!photos.isEmpty() && photos.size() != outlines.size()) {
      throw new WrongOption(
          "--photo",
          "must name one photograph for each file of outlines: "
              + outlines.size()
              + " files of outlines, "
              + photos.size()
              + " photographs");
    }
    if (Files.isDirectory(out)) {
      throw new WrongOption("--model", "must name a file, but " + out + " is a folder");
    }
    ScaleInput stated = scale.stated();
    List<Lesson> lessons = new ArrayList<>();
    for (int i = 0; i < outlines.size(); i++) {
      HandOutlines drawn = HandOutlines.read(outlines.get(i));
      lessons.add(
          new Lesson(
              drawn, photos.isEmpty() ? LinkedPhoto.find(drawn, outlines.get(i)) : photos.get(i)));
    }
    OwnFiles model = TrainCommand.model(out, read(lessons));
    TrainCommand.require(model, out);
    TileClassifier start = base == null ? TileClassifier.shipped() : ModelOptions.read(base);
    ModelTeacher.Taught taught =
        Workers.run(workers, "teaching", () -> teach(lessons, stated, start));
    tell(taught);
    if (taught.model().isEmpty()) {
      throw new DieInputException(
          Reason.OUTLINES_INVALID, taught.refusal().orElse("nothing was learnt") + ".");
    }
    TrainCommand.write(model, taught.model().get().bytes(), out);
    root.terminal().result("model    " + out);
    root.terminal().result("SHA-256  " + taught.model().get().sha256());
    return ExitCode.DONE;
  }

  private ReadFiles read(List<Lesson> lessons) {
    return ReadFiles.of(outlines)
        .and(lessons.stream().map(Lesson::photo).toList())
        .and(Stated.files(Optional.ofNullable(base), scale.file()));
  }

  private ModelTeacher.Taught teach(List<Lesson> lessons, ScaleInput stated, TileClassifier start) {
    Progress progress = root.progress(quiet, lessons.size());
    SortedMap<String, String> facts = new TreeMap<>();
    List<TaughtTiles> tiles = new ArrayList<>();
    for (int i = 0; i < lessons.size(); i++) {
      Lesson l = lessons.get(i);
      progress.begin(l.photo().getFileName().toString());
      try (DiePhoto photo = DiePhoto.open(l.photo())) {
        ScaleInput input =
            PhotoScale.choose(said(stated, l), scale.mayUseTag(), photo.info()).input();
        tiles.add(
            OutlineTiles.of(photo, input, l.outlines(), SegmentSettings.DEFAULT_TILE_UM, start));
        String number = String.format(Locale.ROOT, "taught_%03d_", i + 1);
        facts.put(number + "photo_sha256", photo.info().sha256());
        facts.put(number + "outlines_sha256", l.outlines().sha256());
        facts.put(
            number + "outlines",
            l.outlines().regions().stream()
                .map(r -> r.id() + " " + r.dieClass().label())
                .collect(Collectors.joining(", ")));
      }
      progress.end("read");
    }
    ModelTeacher.refusal(tiles)
        .ifPresent(
            why -> {
              throw new DieInputException(Reason.OUTLINES_INVALID, why + ".");
            });
    String name =
        start.name().replaceFirst(", taught.*", "")
            + ", taught on "
            + lessons.size()
            + (lessons.size() == 1 ? " photograph" : " photographs");
    return new ModelTeacher(
            start, tiles, drawn(FIRST_SEED, REHEARSED), drawn(FIRST_SEED + REHEARSED, CHECKED))
        .teach(name, facts);
  }

  /** What the call says of the scale, else what the outlines say. */
  private ScaleInput said(ScaleInput stated, Lesson lesson) {
    if (stated instanceof ScaleInput.None
        && scale.mayUseTag()
        && lesson.outlines().photo().umPerPx().isPresent()) {
      return new ScaleInput.Known(
          Calibration.ofPixelPitch(lesson.outlines().photo().umPerPx().getAsDouble(), 0));
    }
    return stated;
  }

  private List<TaughtTiles> drawn(int firstSeed, int count) {
    DrawOptions options = DrawOptions.defaults().withMaxMegapixels(megapixels);
    return IntStream.range(firstSeed, firstSeed + count)
        .parallel()
        .mapToObj(
            seed -> {
              LabelledTiles die = TrainingDies.draw(seed, options, Optional.empty());
              return TaughtTiles.ofDie(
                  die.features(), die.sides(), die.classes(LabelledTiles.PURE));
            })
        .toList();
  }

  private void tell(ModelTeacher.Taught t) {
    if (t.share() == 0) {
      return;
    }
    root.terminal()
        .result(
            String.format(
                Locale.ROOT, "%d outlines, %d tiles inside them", t.regions(), t.tiles()));
    line("tiles right on outlines left out of teaching", t.left());
    line("tiles right on all outlines, all taught", t.whole());
    line("mean IoU of tiles on 6 drawn dies", t.drawn());
    root.terminal()
        .result("Shares of tiles weigh classes alike; outlines left out lie beside taught ones.");
  }

  private void line(String what, ModelTeacher.BeforeAfter v) {
    root.terminal()
        .result(
            String.format(
                Locale.ROOT,
                "  %-46s before %5.1f %%, after %5.1f %%",
                what,
                100 * v.before(),
                100 * v.after()));
  }
}
