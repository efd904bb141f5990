package org.diesurvey.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import java.util.stream.Stream;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.scoring.ScoreCard;
import org.diesurvey.scoring.TruthFile;
import org.diesurvey.survey.Survey;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;

/** Scores on freshly drawn dies, which go through files like any other photograph. */
final class DrawnScores {
  private final DieSegmenter segmenter;
  private final Progress progress;
  private final LongFunction<DrawnDie> draw;
  private final boolean noScale;

  /**
   * @param draw the die of a seed
   * @param noScale whether the survey is told no scale
   */
  DrawnScores(
      DieSegmenter segmenter, Progress progress, LongFunction<DrawnDie> draw, boolean noScale) {
    this.segmenter = segmenter;
    this.progress = progress;
    this.draw = draw;
    this.noScale = noScale;
  }

  List<ScoreCard> of(long firstSeed, int count) {
    List<ScoreCard> cards = new ArrayList<>();
    try {
      Path folder = Files.createTempDirectory("diesurvey-drawn-");
      try {
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
          cards.add(card(seed, folder));
        }
      } finally {
        delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the drawn dies cannot be written to the temporary folder", e);
    }
    return cards;
  }

  private ScoreCard card(long seed, Path folder) throws IOException {
    String name = "die-" + seed;
    progress.begin(name);
    DrawnDie die = draw.apply(seed);
    Path file = DieFiles.write(die, folder, name, DieFiles.Format.PNG);
    ScaleInput scale =
        noScale
            ? ScaleInput.NONE
            : new ScaleInput.Known(Calibration.ofPixelPitch(die.truth().umPerPx(), 0));
    Survey survey;
    try (DiePhoto photo = DiePhoto.open(file)) {
      survey = segmenter.survey(photo, scale, progress::stageDone).survey();
    }
    ScoreCard card = ScoreCommand.score(survey, TruthFile.read(folder.resolve(name + ".json")));
    progress.end("scored");
    delete(folder, name);
    return card;
  }

  private static void delete(Path folder, String name) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path p : files.filter(f -> f.getFileName().toString().startsWith(name)).toList()) {
        Files.delete(p);
      }
    }
  }

  private static void delete(Path folder) throws IOException {
    delete(folder, "");
    Files.delete(folder);
  }
}
