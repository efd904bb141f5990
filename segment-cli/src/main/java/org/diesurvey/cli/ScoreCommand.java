package org.diesurvey.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.report.picture.LabelMap;
import org.diesurvey.scoring.DieScorer;
import org.diesurvey.scoring.GroundScore;
import org.diesurvey.scoring.LabelFile;
import org.diesurvey.scoring.Prediction;
import org.diesurvey.scoring.ScoreCard;
import org.diesurvey.scoring.ScoreJson;
import org.diesurvey.scoring.ScoreSummary;
import org.diesurvey.scoring.ScoreText;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.json.SurveyJson;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.LayoutLibrary;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Compares surveys with truth. */
@Command(
    name = "score",
    description = {
      "Compares surveys with the truth: overlap by class, error of the shares, distance of edges,"
          + " confusion, and whether the stated confidence is kept.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "Truth: JSON files as the command draw writes them, beside a label map and a photograph, or"
          + " folders of them. Each photograph is surveyed with the pixel pitch of its truth file"
          + " (without a scale where that has none), or taken from surveys made before.",
      "",
      "Examples:",
      "  diesurvey score truth-folder",
      "  diesurvey score die-7.json --surveys surveys --json scores.json",
      "  diesurvey score --drawn 20 --seed 500000"
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:all dies were scored",
      "1:some could not be scored, the others are",
      "2:wrong call, nothing was done",
      "70:a fault of this program"
    })
final class ScoreCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "TRUTH",
      arity = "0..*",
      description = "Truth files, or folders that hold some.")
  private List<Path> truths = new ArrayList<>();

  @Option(
      names = "--surveys",
      paramLabel = "DIR",
      description = "Score the surveys in this folder (the --out of segment); survey nothing.")
  private Path surveys;

  @Option(
      names = "--drawn",
      paramLabel = "N",
      description = "Also draw N dies and score them, 1 to 10000.")
  private int drawn;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "900000",
      description = "Seed of the first die drawn; ${DEFAULT-VALUE} by default.")
  private long seed;

  @Option(
      names = "--wide",
      description = "Draw them from the wider world of draw --wide, at most 4 MP.")
  private boolean wide;

  @Mixin private LayoutOptions layouts;

  @Option(
      names = "--technology",
      paramLabel = "NAME",
      description =
          "With --layouts: blocks of this technology alone (the beginning of its name), on every"
              + " die.")
  private String technology;

  @Option(
      names = "--no-scale",
      description = "Survey without a scale, even where the truth states one.")
  private boolean noScale;

  @Option(
      names = "--coarser",
      paramLabel = "UM",
      description =
          "Average the photographs over whole pixels first, to about this pitch, um/px; for truth"
              + " that states a pitch.")
  private Double coarser;

  @Option(
      names = "--json",
      paramLabel = "FILE",
      description = "Write all figures to this file as JSON.")
  private Path json;

  @Option(names = "--confusion", description = "Show the confusion matrix of every die.")
  private boolean confusion;

  @Mixin private ModelOptions model;

  @Option(names = "--quiet", description = "No progress.")
  private boolean quiet;

  /** Largest photograph of the wider world, MP. */
  private static final double MOST_MEGAPIXELS = 4;

  private final Diesurvey root;
  private final List<String> grounds = new ArrayList<>();
  private int lost;

  ScoreCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (truths.isEmpty() && drawn == 0) {
      throw new WrongOption("score", "needs truth files or --drawn N");
    }
    if (drawn < 0 || drawn > 10_000) {
      throw new WrongOption("--drawn", "must be from 1 to 10000, was " + drawn);
    }
    if (technology != null && !(wide && layouts.library().isPresent())) {
      throw new WrongOption("--technology", "needs --wide and --layouts DIR");
    }
    if (drawn > 0 && surveys != null) {
      throw new WrongOption("--surveys", "has no surveys of dies that --drawn is yet to draw");
    }
    List<TruthEntry> entries = TruthEntry.of(truths);
    if (json != null) {
      Optional<DieInputException> refusal = scores(entries).refusal(Set.of(jsonName()));
      if (refusal.isPresent()) {
        throw refusal.get();
      }
      SurveyFolders.prepare(json.toAbsolutePath().getParent());
    }
    Optional<DieSegmenter> segmenter =
        surveys == null ? Optional.of(model.segmenter()) : Optional.empty();
    Progress progress = root.progress(quiet, entries.size() + drawn);
    List<ScoreCard> cards = new ArrayList<>();
    for (TruthEntry entry : entries) {
      progress.begin(SurveyFolders.stem(entry.file()));
      card(entry, segmenter, progress).ifPresent(cards::add);
    }
    if (drawn > 0) {
      cards.addAll(
          new DrawnScores(segmenter.orElseThrow(), progress, this::draw, noScale).of(seed, drawn));
    }
    tell(new ScoreSummary(cards), entries);
    return lost > 0 ? ExitCode.SOME_REJECTED : ExitCode.DONE;
  }

  private DrawnDie draw(long one) {
    if (!wide) {
      return DieDrawing.draw(one, DrawOptions.defaults());
    }
    DrawOptions options = TrainingDies.wide(MOST_MEGAPIXELS);
    Optional<LayoutLibrary> library = layouts.library();
    return technology == null
        ? DieDrawing.draw(one, options, library)
        : DieDrawing.drawReal(
            one, options, library.orElseThrow().only(t -> t.startsWith(technology)));
  }

  private Optional<ScoreCard> card(
      TruthEntry entry, Optional<DieSegmenter> segmenter, Progress progress) {
    try {
      Truth stated = TruthFile.read(entry.file());
      int factor = coarser == null ? 1 : ReducedPhoto.factor(stated, coarser);
      Truth truth = factor == 1 ? stated : ReducedPhoto.truth(stated, factor);
      Survey survey =
          segmenter.isPresent()
              ? survey(photo(entry, factor), truth, segmenter.get(), progress)
              : SurveyJson.read(
                  surveys.resolve(SurveyFolders.stem(entry.photo())).resolve(SurveyFolder.SURVEY));
      ScoreCard card = score(survey, truth);
      ground(entry, factor, survey);
      progress.end("scored");
      return Optional.of(card);
    } catch (DieInputException e) {
      lost++;
      progress.end("not scored");
      root.terminal().remark("diesurvey: " + entry.file() + ": " + e.getMessage());
      root.trace(e);
      return Optional.empty();
    }
  }

  /** The photograph, or a coarser one in a temporary file. */
  private static Path photo(TruthEntry entry, int factor) {
    if (factor == 1) {
      return entry.photo();
    }
    try {
      Path reduced = Files.createTempFile("diesurvey-coarser-", ".png");
      reduced.toFile().deleteOnExit();
      ReducedPhoto.write(entry.photo(), factor, reduced);
      return reduced;
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, entry.photo() + ": the photograph cannot be reduced.", e);
    }
  }

  /** Where a map of ground that certainly holds nothing lies beside the truth, it is scored too. */
  private void ground(TruthEntry entry, int factor, Survey survey) {
    String name = SurveyFolders.stem(entry.file());
    Path file = entry.file().resolveSibling(name + "_ground.png");
    if (!Files.exists(file)) {
      return;
    }
    LabelRaster map = ReducedPhoto.map(LabelFile.read(file), factor);
    double share = GroundScore.falseAlarms(map, LabelMap.of(survey));
    grounds.add(
        String.format(
            java.util.Locale.ROOT,
            "%s: %.1f %% of the ground that certainly holds nothing was given a class",
            name,
            100 * share));
  }

  private Survey survey(Path file, Truth truth, DieSegmenter segmenter, Progress progress) {
    ScaleInput scale =
        truth.umPerPx().isPresent() && !noScale
            ? new ScaleInput.Known(Calibration.ofPixelPitch(truth.umPerPx().getAsDouble(), 0))
            : ScaleInput.NONE;
    try (DiePhoto photo = DiePhoto.open(file)) {
      return segmenter.survey(photo, scale, progress::stageDone).survey();
    }
  }

  static ScoreCard score(Survey survey, Truth truth) {
    if (survey.photo().widthPx() != truth.labels().width()
        || survey.photo().heightPx() != truth.labels().height()) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          String.format(
              java.util.Locale.ROOT,
              "the survey is of a photograph of %d x %d px, but the label map has %d x %d px; they"
                  + " do not belong together.",
              survey.photo().widthPx(),
              survey.photo().heightPx(),
              truth.labels().width(),
              truth.labels().height()));
    }
    return DieScorer.score(Prediction.of(survey, LabelMap.of(survey), Optional.empty()), truth);
  }

  private OwnFiles scores(List<TruthEntry> entries) {
    List<Path> read = new ArrayList<>();
    for (TruthEntry entry : entries) {
      read.addAll(List.of(entry.file(), entry.photo()));
    }
    return OwnFiles.of(json, ReadFiles.of(read).and(Stated.files(model.file())));
  }

  private String jsonName() {
    return json.toAbsolutePath().normalize().getFileName().toString();
  }

  private void tell(ScoreSummary summary, List<TruthEntry> entries) {
    if (summary.cards().isEmpty()) {
      return;
    }
    root.terminal().result(ScoreText.of(summary));
    grounds.forEach(root.terminal()::result);
    if (confusion) {
      summary.cards().forEach(c -> root.terminal().result(ScoreText.confusion(c)));
    }
    if (json != null) {
      byte[] text = ScoreJson.text(summary).getBytes(StandardCharsets.UTF_8);
      scores(entries).write(Map.of(jsonName(), text));
    }
  }
}
