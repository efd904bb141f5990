package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Notice;
import org.diesurvey.survey.ScaleRecord;
import org.diesurvey.survey.SevereNotice;
import org.diesurvey.tiles.TileGrid;

/** What a reader of the survey must know, in the order of the flow. */
final class Notices {
  /** Pitch above which bit cells and standard-cell rows of most nodes are not sampled, um/px. */
  private static final double COARSE_UM = 1.2;

  private Notices() {}

  static List<Notice> of(
      DiePhoto photo,
      Levels levels,
      PreparedDie die,
      Optional<Calibration> calibration,
      Optional<ScaleRecord.InferredRange> inferred,
      ChosenDie chosen,
      double damagedShare,
      TileGrid grid,
      List<DieRegion> regions) {
    List<Notice> out = new ArrayList<>();
    scale(photo.info(), calibration, inferred, out);
    PreparationNotices.addReading(photo.reading(), out);
    PreparationNotices.addLevels(levels, die.steps(), out);
    PreparationNotices.add(chosen, damagedShare, out);
    if (calibration.isPresent() && grid.pitchUm() > COARSE_UM) {
      out.add(
          new Notice(
              "coarse-sampling",
              String.format(
                  Locale.ROOT,
                  "One pixel covers %.2f \u00b5m: bit cells and cell rows are hardly sampled, so"
                      + " memory is recognised by evenness and outline only.",
                  grid.pitchUm()),
              "Use a stronger objective or stitch finer fields, 0.5 \u00b5m/px or less."));
    }
    if (regions.isEmpty()) {
      out.add(
          new Notice(
              "no-regions",
              "No region of any class was found.",
              "Check that the photograph shows a delayered die and that the scale is right."));
    }
    return out;
  }

  private static void scale(
      PhotoInfo photo,
      Optional<Calibration> calibration,
      Optional<ScaleRecord.InferredRange> inferred,
      List<Notice> out) {
    if (calibration.isEmpty()) {
      String range =
          inferred
              .map(
                  r ->
                      String.format(
                          Locale.ROOT,
                          " The layout itself suggests %.2g to %.2g \u00b5m/px, which is not used"
                              + " for areas.",
                          r.lowUmPerPx(),
                          r.highUmPerPx()))
              .orElse("");
      out.add(
          SevereNotice.NO_SCALE.says(
              "No scale was given, so there are regions and shares but no areas." + range,
              "State the pixel pitch in \u00b5m per px, a calibration file, or the die size."));
    } else if (DieSegmenter.fromMetadata(calibration.get())) {
      out.add(
          new Notice(
              "scale-from-metadata",
              "The scale was taken from the file's own tag ("
                  + calibration.get().note()
                  + "), which cameras and editors often set without meaning.",
              "State the pixel pitch measured with a stage micrometer."));
    } else if (calibration.get().umPerPx().standardUncertainty() == 0) {
      out.add(
          new Notice(
              "scale-without-uncertainty",
              "The scale was stated without an uncertainty, so the areas carry that of the outlines"
                  + " only.",
              "State the scale as value+-standard uncertainty, for example 0.5+-0.002."));
    }
    if (calibration.isPresent()
        && !DieSegmenter.fromMetadata(calibration.get())
        && photo.taggedScale().isPresent()) {
      double tag = photo.taggedScale().get().umPerPx();
      double ratio = tag / calibration.get().umPerPx().value();
      if (ratio > 0.5 && ratio < 2 && Math.abs(ratio - 1) > 0.02) {
        out.add(
            new Notice(
                "scale-differs-from-metadata",
                String.format(
                    Locale.ROOT,
                    "The file's own tag says %.4g \u00b5m/px, %+.1f %% against the scale used.",
                    tag,
                    100 * (ratio - 1)),
                "Check which of the two belongs to this objective."));
      }
    }
  }
}
