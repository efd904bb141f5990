package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import org.diesurvey.DieInputException;
import org.diesurvey.comparison.training.ChangeTraining;
import org.diesurvey.comparison.training.KindTraining;
import org.diesurvey.comparison.training.TrainingRows;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.RectUm;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Makes the two networks of comparisons: of changed tiles and of kinds of change. */
@Command(
    name = "train-changes",
    hidden = true,
    sortOptions = false,
    description = {
      "Draws pairs of revisions, registers them and trains the network that tells changed tiles;"
          + " then, on further pairs, the one that tells how a place changed.",
      ""
    })
final class TrainChangesCommand implements Callable<Integer> {
  /** Dies whose edge was found wrongly would teach wrong places, um. */
  private static final double EDGE_UM = 6;

  @Option(
      names = "--drawn",
      paramLabel = "N",
      defaultValue = "220",
      description = "Pairs for the tiles.")
  private int drawn;

  @Option(
      names = "--unchanged",
      paramLabel = "N",
      defaultValue = "60",
      description = "Pairs of one revision, for the tiles.")
  private int unchanged;

  @Option(
      names = "--places",
      paramLabel = "N",
      defaultValue = "300",
      description = "Further pairs for the kinds, and a quarter as many of one revision.")
  private int places;

  @Option(names = "--seed", paramLabel = "S", defaultValue = "600000", description = "First seed.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "MP",
      split = ",",
      defaultValue = "2,2,4,2,2,8",
      description = "Largest photographs, taken in turns.")
  private List<Double> megapixels;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for change-network.json and kind-network.json.")
  private Path out;

  @Mixin private ModelOptions model;

  private final Diesurvey root;

  TrainChangesCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    DieSegmenter all = model.segmenter();
    DieSegmenter segmenter = all.with(all.settings().withThreads(1));
    ChangeTraining tiles = new ChangeTraining(segmenter.classifier());
    byte[] changes =
        ChangeTraining.network(
            rows(
                tasks(seed, drawn, unchanged),
                segmenter,
                (r, s) -> tiles.rows(r.first(), r.second(), r.truth(), s)));
    write("change-network.json", changes);
    KindTraining kinds = new KindTraining(segmenter.classifier(), changes);
    long next = seed + Math.max(drawn, unchanged);
    write(
        "kind-network.json",
        KindTraining.network(
            rows(
                tasks(next, places, places / 4),
                segmenter,
                (r, s) -> kinds.rows(r.first(), r.second(), r.truth()))));
    return ExitCode.DONE;
  }

  private void write(String name, byte[] network) {
    OwnFiles.of(out.resolve(name), ReadFiles.NONE).write(Map.of(name, network));
  }

  /** A pair that is drawn when its turn comes. */
  private record Task(long seed, RevisionOptions options) {}

  private interface Teacher {
    TrainingRows rows(DrawnRevisions revisions, long seed);
  }

  private List<Task> tasks(long seed, int drawn, int unchanged) {
    List<Task> out = new ArrayList<>();
    for (int i = 0; i < drawn; i++) {
      out.add(new Task(seed + i, options(i)));
    }
    for (int i = 0; i < unchanged; i++) {
      out.add(new Task(seed + i, options(i).unchanged()));
    }
    return out;
  }

  private RevisionOptions options(int pair) {
    return RevisionOptions.defaults().withMaxMegapixels(megapixels.get(pair % megapixels.size()));
  }

  private List<TrainingRows> rows(List<Task> tasks, DieSegmenter segmenter, Teacher teacher) {
    AtomicInteger done = new AtomicInteger();
    Function<Task, Optional<TrainingRows>> one =
        t -> {
          Optional<TrainingRows> found = rows(t, segmenter, teacher);
          String left = found.isPresent() ? "" : ", left out";
          root.terminal()
              .remark(
                  String.format(
                      "%d of %d  pair %d%s", done.incrementAndGet(), tasks.size(), t.seed(), left));
          return found;
        };
    List<TrainingRows> out =
        AtATime.each(tasks, model.threads(), one).stream().flatMap(Optional::stream).toList();
    if (out.stream().allMatch(TrainingRows::isEmpty)) {
      throw new WrongOption("train-changes", "needs more pairs: none of these could be used");
    }
    return out;
  }

  /** Empty for a die that grew, was not found as it is, or not at all. */
  private static Optional<TrainingRows> rows(Task task, DieSegmenter segmenter, Teacher teacher) {
    RevisionPair pair = RevisionPair.draw(task.seed(), task.options());
    if (pair.truth().grownUm().isPresent()) {
      return Optional.empty();
    }
    List<TrainingRows> made = new ArrayList<>();
    try {
      DrawnRevisions.use(
          pair,
          segmenter,
          r -> {
            if (edgesRight(r.first().survey(), pair.truth().firstDieUm())) {
              made.add(teacher.rows(r, task.seed()));
            }
          });
    } catch (DieInputException e) {
      return Optional.empty();
    }
    return made.stream().findFirst();
  }

  private static boolean edgesRight(Survey survey, RectUm die) {
    return Math.abs(1000 * survey.die().widthMm().orElseThrow().value() - die.widthUm()) < EDGE_UM
        && Math.abs(1000 * survey.die().heightMm().orElseThrow().value() - die.heightUm())
            < EDGE_UM;
  }
}
