package org.diesurvey.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.RetunedSurveys;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.report.picture.LabelMap;
import org.diesurvey.scoring.ConfusionMatrix;
import org.diesurvey.scoring.Truth;
import org.diesurvey.scoring.TuningCheck;
import org.diesurvey.scoring.TuningEffect;
import org.diesurvey.scoring.TuningJson;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** What hangs on the values that no training fits. */
@Command(
    name = "check-tuning",
    hidden = true,
    description = {
      "Surveys drawn dies with each value of the tuning a fifth less and a fifth more, and prints"
          + " how the overlap with the truth and the shares of area change.",
      ""
    },
    sortOptions = false)
final class CheckTuningCommand implements Callable<Integer> {
  @Option(
      names = "--dies",
      paramLabel = "N",
      defaultValue = "12",
      description = "Dies to draw, 1 to 1000; ${DEFAULT-VALUE} by default.")
  private int dies;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "950000",
      description = "Seed of the first die; ${DEFAULT-VALUE} by default, which no training uses.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      defaultValue = "2",
      description = "Largest photograph, MP; ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Option(
      names = "--json",
      paramLabel = "FILE",
      description = "Write all figures to this file as JSON.")
  private Path json;

  @Mixin private ModelOptions model;

  @Option(names = "--quiet", description = "No progress.")
  private boolean quiet;

  private final Diesurvey root;

  CheckTuningCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (dies < 1 || dies > 1000) {
      throw new WrongOption("--dies", "must be from 1 to 1000, was " + dies);
    }
    if (json != null) {
      Optional<DieInputException> refusal = figures().refusal(Set.of(jsonName()));
      if (refusal.isPresent()) {
        throw refusal.get();
      }
      SurveyFolders.prepare(json.toAbsolutePath().getParent());
    }
    DieSegmenter segmenter = model.segmenter();
    TuningCheck check = new TuningCheck();
    List<String> names = new ArrayList<>();
    DrawnPhotos.each(
        seed,
        dies,
        this::draw,
        root.progress(quiet, dies),
        (photo, truth) -> {
          check(check, segmenter, photo, truth);
          names.add(truth.name());
        });
    root.terminal().result(TuningEffect.text(check.effects()));
    if (json != null) {
      String text = TuningJson.text(check.effects(), names);
      figures().write(Map.of(jsonName(), text.getBytes(StandardCharsets.UTF_8)));
    }
    return ExitCode.DONE;
  }

  /** The styles of training; every third die is of the sparse one. */
  private DrawnDie draw(long one) {
    DrawOptions options =
        one % 3 == 2 ? TrainingDies.sparse(one, megapixels) : TrainingDies.options(one, megapixels);
    return DieDrawing.draw(one, options);
  }

  private static void check(TuningCheck check, DieSegmenter segmenter, Path file, Truth truth) {
    try (DiePhoto photo = DiePhoto.open(file);
        RetunedSurveys known = RetunedSurveys.of(segmenter, photo, DrawnScores.scale(truth));
        RetunedSurveys unknown = RetunedSurveys.of(segmenter, photo, ScaleInput.NONE)) {
      check.die(
          known,
          unknown,
          survey -> ConfusionMatrix.of(truth.labels(), LabelMap.of(survey)).meanIou());
    }
  }

  private OwnFiles figures() {
    return OwnFiles.of(json, ReadFiles.of(Stated.files(model.file())));
  }

  private String jsonName() {
    return json.toAbsolutePath().normalize().getFileName().toString();
  }
}
