package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.TileClassifier;
import org.diesurvey.comparison.ChangeKind;
import org.diesurvey.comparison.Comparison;
import org.diesurvey.comparison.ComparisonScores;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.ComparisonSide;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Point;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.RectUm;
import org.diesurvey.synthetic.RevisionChange;
import org.diesurvey.synthetic.RevisionFiles;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Compares found changes of drawn revisions with the true ones. */
@Command(
    name = "score-comparisons",
    description = {
      "Draws pairs of revisions and pairs of different chips, compares each, and says which changes"
          + " were found, which were false, and how far moves are off.",
      ""
    },
    sortOptions = false,
    footer = {"", "Example:", "  diesurvey score-comparisons --drawn 100 --seed 610000"},
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:all were compared", "2:wrong call", "70:a fault of this program"})
final class ScoreComparisonsCommand implements Callable<Integer> {
  @Option(
      names = "--drawn",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of revisions.")
  private int drawn;

  @Option(
      names = "--unchanged",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of photographs of one revision.")
  private int unchanged;

  @Option(
      names = "--different",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of different chips of one technology and size.")
  private int different;

  @Option(names = "--seed", paramLabel = "S", defaultValue = "610000", description = "First seed.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "MP",
      defaultValue = "4",
      description = "Largest photograph, 1.2 to 50; ${DEFAULT-VALUE} if left away.")
  private double megapixels;

  @Mixin private ModelOptions model;

  private final Diesurvey root;

  ScoreComparisonsCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (drawn < 0 || unchanged < 0 || different < 0 || drawn + unchanged + different == 0) {
      throw new WrongOption("score-comparisons", "needs --drawn, --unchanged or --different N");
    }
    RevisionOptions options = RevisionOptions.defaults().withMaxMegapixels(megapixels);
    ComparisonScores scores = new ComparisonScores();
    DieSegmenter segmenter = model.segmenter();
    for (long s = seed; s < seed + drawn; s++) {
      score(RevisionPair.draw(s, options), "pair " + s, scores, segmenter);
    }
    for (long s = seed; s < seed + unchanged; s++) {
      score(RevisionPair.draw(s, options.unchanged()), "same die " + s, scores, segmenter);
    }
    for (long s = seed; s < seed + different; s++) {
      score(RevisionPair.strangers(s, options), "different chips " + s, scores, segmenter);
    }
    root.terminal().result(scores.text());
    return ExitCode.DONE;
  }

  private void score(
      RevisionPair pair, String name, ComparisonScores scores, DieSegmenter segmenter) {
    try {
      Path folder = Files.createTempDirectory("diesurvey-pair-");
      try {
        RevisionFiles.write(pair, folder, "die", DieFiles.Format.PNG);
        compare(pair, folder, name, scores, segmenter);
      } finally {
        try (Stream<Path> files = Files.list(folder)) {
          for (Path p : files.toList()) {
            Files.delete(p);
          }
        }
        Files.delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the drawn pair cannot be written", e);
    }
  }

  private void compare(
      RevisionPair pair,
      Path folder,
      String name,
      ComparisonScores scores,
      DieSegmenter segmenter) {
    List<TrueChange> truth = new ArrayList<>();
    for (RevisionChange c : pair.truth().changes()) {
      truth.add(trueChange(c, pair.truth().firstDieUm().heightUm()));
    }
    try (DiePhoto a = DiePhoto.open(folder.resolve("die-a.png"));
        DiePhoto b = DiePhoto.open(folder.resolve("die-b.png"))) {
      Calibration scaleA = Calibration.ofPixelPitch(pair.truth().firstStatedUmPerPx(), 0);
      Calibration scaleB = Calibration.ofPixelPitch(pair.truth().secondStatedUmPerPx(), 0);
      Comparison c =
          new LayoutComparer(TileClassifier.programVersion(), model.threads(), model.classifier())
              .compare(side(segmenter, a, scaleA), side(segmenter, b, scaleB))
              .comparison();
      if (pair.truth().sameChip()) {
        scores.pair(c, truth, pair.truth().grownUm().isEmpty());
      } else {
        scores.stranger(false);
      }
      root.terminal()
          .remark(
              String.format(
                  Locale.ROOT, "%s: %d true, %d found", name, truth.size(), c.changes().size()));
    } catch (DieInputException e) {
      if (e.reason() != Reason.NO_COMMON_LAYOUT) {
        throw e;
      }
      if (pair.truth().sameChip()) {
        scores.refusal(truth);
      } else {
        scores.stranger(true);
      }
      root.terminal().remark(name + ": refused");
    }
  }

  static ComparisonSide side(DieSegmenter segmenter, DiePhoto photo, Calibration scale) {
    return new ComparisonSide(segmenter.survey(photo, new ScaleInput.Known(scale)), photo);
  }

  static TrueChange trueChange(RevisionChange c, double heightUm) {
    List<List<Double>> boxes = new ArrayList<>();
    Stream.concat(c.beforeUm().stream(), c.afterUm().stream())
        .forEach(r -> boxes.add(box(r, heightUm)));
    Optional<Point> moved =
        c.kind() == RevisionChange.Kind.MOVED
            ? Optional.of(new Point(c.movedXUm(), -c.movedYUm()))
            : Optional.empty();
    return new TrueChange(ChangeKind.valueOf(c.kind().name()), boxes, moved);
  }

  private static List<Double> box(RectUm r, double heightUm) {
    return List.of(
        r.xUm(), heightUm - r.yUm() - r.heightUm(), r.xUm() + r.widthUm(), heightUm - r.yUm());
  }
}
