package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieMeasurer;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.pipeline.SurveyEstimates;
import org.diesurvey.scoring.EstimateCase;
import org.diesurvey.scoring.EstimateCases;
import org.diesurvey.scoring.EstimateText;
import org.diesurvey.scoring.TrueOutlines;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawOptions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Estimates beside the truth: how many intervals hold, and the errors of extent fitted again. */
@Command(
    name = "check-estimates",
    hidden = true,
    description = {
      "Estimates bits and gates of dies with known truth, from true outlines and from surveys, and"
          + " counts how many intervals hold the truth. Prints the rows of extent.csv, fitted"
          + " again.",
      ""
    },
    sortOptions = false)
final class CheckEstimatesCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "TRUTH",
      arity = "0..*",
      description = "Truth files, or folders that hold some.")
  private List<Path> truths = new ArrayList<>();

  @Option(names = "--drawn", paramLabel = "N", description = "Also draw N whole dies.")
  private int drawn;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "910000",
      description = "Seed of the first die drawn; ${DEFAULT-VALUE} by default.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "M",
      defaultValue = "2",
      description = "Largest drawn photograph; ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Option(names = "--outlines-only", description = "True outlines only; survey nothing.")
  private boolean outlinesOnly;

  @Option(
      names = "--areas-only",
      description =
          "Drawn dies: true areas and the node only; neither photographs nor periods. Fast.")
  private boolean areasOnly;

  @Option(
      names = "--no-node",
      description = "Estimate as if the process node were not known, from periods alone.")
  private boolean noNode;

  @Mixin private DensityOptions densities;

  @Mixin private ModelOptions model;

  private final Diesurvey root;
  private final List<EstimateCase> cases = new ArrayList<>();
  private final List<Double> arrays = new ArrayList<>();
  private final List<Double> macros = new ArrayList<>();
  private final List<Double> logic = new ArrayList<>();

  CheckEstimatesCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    DieSegmenter segmenter =
        outlinesOnly || areasOnly ? null : model.segmenter().with(densities.estimator());
    int lost = 0;
    for (TruthEntry entry : TruthEntry.of(truths)) {
      lost += check(entry.file(), entry.photo(), segmenter) ? 0 : 1;
    }
    if (drawn > 0) {
      lost += drawn(segmenter);
    }
    root.terminal().result(EstimateText.of(cases));
    if (segmenter != null) {
      root.terminal().result(EstimateText.extent("arrays", arrays).stripTrailing());
      root.terminal().result(EstimateText.extent("macros", macros).stripTrailing());
      root.terminal().result(EstimateText.extent("logic", logic).stripTrailing());
    }
    root.terminal().remark(lost + " dies could not be estimated");
    return lost > 0 ? ExitCode.SOME_REJECTED : ExitCode.DONE;
  }

  private int drawn(DieSegmenter segmenter) {
    DrawOptions options =
        DrawOptions.defaults()
            .withMaxMegapixels(megapixels)
            .withFraming(DrawOptions.Framing.WHOLE_DIE);
    int lost = 0;
    if (areasOnly) {
      for (long s = seed; s < seed + drawn; s++) {
        add(DrawnAreas.cases(DieDrawing.draw(s, options), densities.estimator()));
      }
      return 0;
    }
    try {
      Path folder = Files.createTempDirectory("diesurvey-drawn-");
      for (long s = seed; s < seed + drawn; s++) {
        String name = "die-" + s;
        Path photo = DieFiles.write(DieDrawing.draw(s, options), folder, name, DieFiles.Format.PNG);
        lost += check(folder.resolve(name + ".json"), photo, segmenter) ? 0 : 1;
        try (Stream<Path> files = Files.list(folder)) {
          for (Path f : files.toList()) {
            Files.delete(f);
          }
        }
      }
      Files.delete(folder);
    } catch (IOException e) {
      throw new UncheckedIOException("the drawn dies cannot be written to the temporary folder", e);
    }
    return lost;
  }

  private boolean check(Path file, Path photo, DieSegmenter segmenter) {
    String die = SurveyFolders.stem(file);
    TrueOutlines truth = TrueOutlines.read(file);
    double pitch = truth.umPerPx();
    ScaleInput scale = new ScaleInput.Known(Calibration.ofPixelPitch(pitch, 0.002 * pitch));
    SegmentSettings settings = SegmentSettings.defaults();
    if (truth.nodeNm().isPresent() && !noNode) {
      settings = settings.withNodeNm(truth.nodeNm().getAsDouble());
    }
    DieEstimator estimator = densities.estimator();
    DieMeasurer measurer = new DieMeasurer(settings, estimator, TileClassifier.programVersion());
    boolean all = true;
    try (DiePhoto opened = DiePhoto.open(photo)) {
      Survey s = measurer.measure(opened, scale, truth.outlines());
      root.terminal().remark(EstimateCases.evidence(die, truth, s));
      add(EstimateCases.of(die, EstimateCase.Basis.TRUE_ARRAYS, truth, s));
      Survey macrosOnly =
          SurveyEstimates.add(EstimateCases.withoutArrays(s), estimator, true, Map.of());
      add(EstimateCases.of(die, EstimateCase.Basis.TRUE_MACROS, truth, macrosOnly));
    } catch (DieInputException e) {
      root.terminal().remark("diesurvey: " + die + ": " + e.getMessage());
      all = false;
    }
    if (segmenter == null) {
      return all;
    }
    try (DiePhoto opened = DiePhoto.open(photo)) {
      Survey s = segmenter.with(settings).survey(opened, scale).survey();
      add(EstimateCases.of(die, EstimateCase.Basis.SURVEY, truth, s));
      root.terminal()
          .remark(
              String.format(
                  java.util.Locale.ROOT,
                  "extent %s memory %.2f arrays %.3f macros %.3f logic %.2f area %.3f",
                  die,
                  EstimateCases.confidence(s, DieClass.MEMORY_ARRAY),
                  truth.arraysUm2() / Math.max(1, EstimateCases.arraysUm2(s)),
                  truth.macrosUm2() / Math.max(1, EstimateCases.areaUm2(s, DieClass.MEMORY_ARRAY)),
                  EstimateCases.confidence(s, DieClass.LOGIC),
                  truth.logicUm2() / Math.max(1, EstimateCases.areaUm2(s, DieClass.LOGIC))));
      ratio(arrays, truth.arraysUm2(), EstimateCases.arraysUm2(s));
      ratio(macros, truth.macrosUm2(), EstimateCases.areaUm2(s, DieClass.MEMORY_ARRAY));
      ratio(logic, truth.logicUm2(), EstimateCases.areaUm2(s, DieClass.LOGIC));
    } catch (DieInputException e) {
      root.terminal().remark("diesurvey: " + die + ": " + e.getMessage());
      all = false;
    }
    return all;
  }

  private void add(List<EstimateCase> more) {
    cases.addAll(more);
    more.forEach(c -> root.terminal().remark(EstimateText.line(c)));
  }

  private static void ratio(List<Double> into, double truth, double found) {
    if (truth > 0 && found > 0) {
      into.add(truth / found);
    }
  }
}
