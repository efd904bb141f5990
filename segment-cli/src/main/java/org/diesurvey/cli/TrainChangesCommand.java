package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.diesurvey.comparison.ChangeTraining;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.RectUm;
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
      defaultValue = "16",
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
    DieSegmenter segmenter = model.segmenter();
    ChangeTraining training = new ChangeTraining(model.threads(), segmenter.classifier());
    try {
      for (long s = seed; s < seed + drawn; s++) {
        add(RevisionPair.draw(s, options), s, training, segmenter);
      }
      for (long s = seed; s < seed + unchanged; s++) {
        add(RevisionPair.draw(s, options.unchanged()), s, training, segmenter);
      }
      Files.write(out, training.network());
    } catch (IOException e) {
      throw new UncheckedIOException("the network cannot be written", e);
    }
    return ExitCode.DONE;
  }

  private void add(
      RevisionPair pair, long number, ChangeTraining training, DieSegmenter segmenter) {
    if (pair.truth().grownUm().isPresent()) {
      return;
    }
    DrawnRevisions.use(
        pair,
        segmenter,
        r -> {
          if (edgesRight(r.first().survey(), pair.truth().firstDieUm())) {
            training.add(r.first(), r.second(), r.truth(), number);
            root.terminal().remark("pair " + number);
          }
        });
  }

  private static boolean edgesRight(Survey survey, RectUm die) {
    return Math.abs(1000 * survey.die().widthMm().orElseThrow().value() - die.widthUm()) < EDGE_UM
        && Math.abs(1000 * survey.die().heightMm().orElseThrow().value() - die.heightUm())
            < EDGE_UM;
  }
}
