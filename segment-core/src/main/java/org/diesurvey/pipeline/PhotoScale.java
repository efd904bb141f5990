package org.diesurvey.pipeline;

import java.util.Locale;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.Notice;

/**
 * The scale for one photograph: what the user stated, else what the file states about itself.
 *
 * @param input for the survey
 * @param notice what the reader of the survey must know about the choice
 */
@Supported
public record PhotoScale(ScaleInput input, Optional<Notice> notice) {
  /**
   * Coarsest tag that may be a microscope's, um/px. Cameras and editors write 72, 96, 300 or 1200
   * dpi without meaning: 353, 265, 85 and 21 um/px. Common practice, no source.
   */
  public static final double COARSEST_TAG_UM_PER_PX = 20;

  /** Relative standard uncertainty given to a tag, which states none; an assumption, no source. */
  public static final double TAG_UNCERTAINTY = 0.02;

  /**
   * Chooses.
   *
   * @param stated by the user; NONE if nothing
   * @param mayUseTag whether the file's own tag may be used then
   * @param photo whose tag it is
   */
  public static PhotoScale choose(ScaleInput stated, boolean mayUseTag, PhotoInfo photo) {
    if (!(stated instanceof ScaleInput.None) || !mayUseTag || photo.taggedScale().isEmpty()) {
      return new PhotoScale(stated, Optional.empty());
    }
    TaggedScale tag = photo.taggedScale().get();
    double v = tag.umPerPx();
    if (v > COARSEST_TAG_UM_PER_PX || v < Calibration.FINEST_UM_PER_PX) {
      return new PhotoScale(stated, Optional.of(ignored(tag)));
    }
    String note =
        String.format(
            Locale.ROOT,
            "%s, %.4g \u00b5m/px, taken with an assumed standard uncertainty of %.0f %%",
            tag.origin(),
            v,
            100 * TAG_UNCERTAINTY);
    Calibration scale =
        new Calibration(new Measured(v, TAG_UNCERTAINTY * v), ScaleOrigin.PHOTO_METADATA, note);
    return new PhotoScale(new ScaleInput.Known(scale), Optional.empty());
  }

  private static Notice ignored(TaggedScale tag) {
    return new Notice(
        "tagged-scale-ignored",
        String.format(
            Locale.ROOT,
            "The file's own tag (%s) says %.4g \u00b5m/px, which is not the scale of a microscope,"
                + " so it was not used.",
            tag.origin(),
            tag.umPerPx()),
        "State the pixel pitch measured with a stage micrometer.");
  }
}
