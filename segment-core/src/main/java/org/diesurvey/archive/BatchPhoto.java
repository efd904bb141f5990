package org.diesurvey.archive;

import java.nio.file.Path;
import java.util.OptionalDouble;
import org.diesurvey.pipeline.ScaleInput;

/**
 * A photograph to survey.
 *
 * @param file where it lies
 * @param scale what is known of its scale; NONE leaves it to the file's tag, where that is allowed
 * @param nodeNm process node, nm; empty for that of the segmenter's settings
 * @param labels what the owner says of it
 */
public record BatchPhoto(Path file, ScaleInput scale, OptionalDouble nodeNm, PhotoLabels labels) {
  /** Makes the path absolute, so that it names one file. */
  public BatchPhoto {
    file = file.toAbsolutePath().normalize();
  }

  /** A photograph of which nothing but the scale is known. */
  public static BatchPhoto of(Path file, ScaleInput scale) {
    return new BatchPhoto(file, scale, OptionalDouble.empty(), PhotoLabels.NONE);
  }

  /** File name without its extension, safe as part of a folder's name on every common system. */
  String stem() {
    String name = file.getFileName() == null ? "photo" : file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = (dot > 0 ? name.substring(0, dot) : name).replaceAll("[^A-Za-z0-9_-]+", "-");
    return stem.isBlank() ? "photo" : stem.substring(0, Math.min(60, stem.length()));
  }
}
