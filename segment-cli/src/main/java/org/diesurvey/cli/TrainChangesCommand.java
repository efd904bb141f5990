package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.comparison.ChangeTraining;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.ComparisonSide;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RectUm;
import org.diesurvey.synthetic.RevisionFiles;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Makes the network that tells changed tiles. */
@Command(
    name = "train-changes",
    hidden = true,
    sortOptions = false,
    description = {
      "Draws pairs of revisions, registers them and trains the network that tells changed tiles.",
      ""
    })
final class TrainChangesCommand implements Callable<Integer> {
  /** Dies whose edge was found wrongly would teach wrong places, um. */
  private static final double EDGE_UM = 6;

  @Option(names = "--drawn", paramLabel = "N", defaultValue = "50", description = "Pairs.")
  private int drawn;

  @Option(
      names = "--unchanged",
      paramLabel = "N",
      defaultValue = "32",
      description = "Pairs of one revision.")
  private int unchanged;

  @Option(names = "--seed", paramLabel = "S", defaultValue = "600000", description = "First seed.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "MP",
      defaultValue = "2",
      description = "Largest photograph.")
  private double megapixels;

  @Option(names = "--out", required = true, paramLabel = "FILE", description = "The network.")
  private Path out;

  @Mixin private ModelOptions model;

  private final Diesurvey root;

  TrainChangesCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    RevisionOptions options = RevisionOptions.defaults().withMaxMegapixels(megapixels);
    ChangeTraining training = new ChangeTraining(model.threads());
    DieSegmenter segmenter = model.segmenter();
    try {
      for (long s = seed; s < seed + drawn; s++) {
        add(RevisionPair.draw(s, options), s, training, segmenter);
      }
      for (long s = seed; s < seed + unchanged; s++) {
        add(RevisionPair.draw(s, options.unchanged()), s, training, segmenter);
      }
      Files.write(out, training.network());
    } catch (IOException e) {
      throw new UncheckedIOException("a drawn pair or the network cannot be written", e);
    }
    return ExitCode.DONE;
  }

  private void add(RevisionPair pair, long number, ChangeTraining training, DieSegmenter segmenter)
      throws IOException {
    if (pair.truth().grownUm().isPresent()) {
      return;
    }
    Path folder = Files.createTempDirectory("diesurvey-pair-");
    try {
      RevisionFiles.write(pair, folder, "die", DieFiles.Format.PNG);
      try (DiePhoto a = DiePhoto.open(folder.resolve("die-a.png"));
          DiePhoto b = DiePhoto.open(folder.resolve("die-b.png"))) {
        ComparisonSide first = side(segmenter, a, pair.truth().firstStatedUmPerPx());
        ComparisonSide second = side(segmenter, b, pair.truth().secondStatedUmPerPx());
        if (edgesRight(first.survey(), pair.truth().firstDieUm())) {
          List<TrueChange> truth =
              pair.truth().changes().stream()
                  .map(
                      c ->
                          ScoreComparisonsCommand.trueChange(
                              c, pair.truth().firstDieUm().heightUm()))
                  .toList();
          training.add(first, second, truth, number);
          root.terminal().remark("pair " + number);
        }
      }
    } finally {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path p : files.toList()) {
          Files.delete(p);
        }
      }
      Files.delete(folder);
    }
  }

  private static ComparisonSide side(DieSegmenter segmenter, DiePhoto photo, double pitchUm) {
    return ScoreComparisonsCommand.side(segmenter, photo, Calibration.ofPixelPitch(pitchUm, 0));
  }

  private static boolean edgesRight(Survey survey, RectUm die) {
    return Math.abs(1000 * survey.die().widthMm().orElseThrow().value() - die.widthUm()) < EDGE_UM
        && Math.abs(1000 * survey.die().heightMm().orElseThrow().value() - die.heightUm())
            < EDGE_UM;
  }
}
