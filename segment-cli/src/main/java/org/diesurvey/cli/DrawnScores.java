package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.scoring.ScoreCard;
import org.diesurvey.scoring.Truth;
import org.diesurvey.synthetic.DrawnDie;

/** Scores on freshly drawn dies. */
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
    DrawnPhotos.each(
        firstSeed, count, draw, progress, (photo, truth) -> cards.add(card(photo, truth)));
    return cards;
  }

  private ScoreCard card(Path file, Truth truth) {
    ScaleInput scale = noScale ? ScaleInput.NONE : scale(truth);
    try (DiePhoto photo = DiePhoto.open(file)) {
      return ScoreCommand.score(
          segmenter.survey(photo, scale, progress::stageDone).survey(), truth);
    }
  }

  /** The true pitch of a drawn die, which has no uncertainty. */
  static ScaleInput scale(Truth truth) {
    return new ScaleInput.Known(Calibration.ofPixelPitch(truth.umPerPx().orElseThrow(), 0));
  }
}
