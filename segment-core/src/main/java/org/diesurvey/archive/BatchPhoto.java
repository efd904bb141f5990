package org.diesurvey.archive;

import java.net.URI;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.Supported;
import org.diesurvey.pipeline.ScaleInput;

/**
 * A photograph to survey.
 *
 * @param file where it lies; for one in a store only its name counts
 * @param scale what is known of its scale; NONE leaves it to the file's tag, where that is allowed
 * @param nodeNm process node, nm; empty for that of the segmenter's settings
 * @param labels what the owner says of it
 * @param plane which picture of a file that holds several, from 1; empty for the first
 * @param stored where it lies in a store that is no folder of this computer; empty for a file
 */
@Supported
public record BatchPhoto(
    Path file,
    ScaleInput scale,
    OptionalDouble nodeNm,
    PhotoLabels labels,
    OptionalInt plane,
    Optional<URI> stored) {
  /** Digits of a survey's key that stand in the name of its folder. */
  public static final int KEY_DIGITS = 12;

  /** Makes the path absolute, so that it names one file. */
  public BatchPhoto {
    file = file.toAbsolutePath().normalize();
  }

  /** A file of this computer. */
  public BatchPhoto(Path file, ScaleInput scale, OptionalDouble nodeNm, PhotoLabels labels) {
    this(file, scale, nodeNm, labels, OptionalInt.empty(), Optional.empty());
  }

  /** The same file, another of its pictures. */
  public BatchPhoto withPlane(OptionalInt other) {
    return new BatchPhoto(file, scale, nodeNm, labels, other, stored);
  }

  /** Where it lies, as a path or a URI; names one photograph. */
  public String place() {
    return stored.map(URI::toString).orElseGet(file::toString);
  }

  /** A photograph in a store, for example "s3a://lab/tray/die.tif". */
  public static BatchPhoto stored(
      URI place, ScaleInput scale, OptionalDouble nodeNm, PhotoLabels labels) {
    String path = place.getPath() == null ? "" : place.getPath();
    String name = path.substring(path.lastIndexOf('/') + 1);
    return new BatchPhoto(
        Path.of(name.isEmpty() ? "photo" : name),
        scale,
        nodeNm,
        labels,
        OptionalInt.empty(),
        Optional.of(place));
  }

  /** A photograph of which nothing but the scale is known. */
  public static BatchPhoto of(Path file, ScaleInput scale) {
    return new BatchPhoto(file, scale, OptionalDouble.empty(), PhotoLabels.NONE);
  }

  /** File name without its extension, safe as part of a folder's name on every common system. */
  public String stem() {
    String name = file.getFileName() == null ? "photo" : file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = (dot > 0 ? name.substring(0, dot) : name).replaceAll("[^A-Za-z0-9_-]+", "-");
    return stem.isBlank() ? "photo" : stem.substring(0, Math.min(60, stem.length()));
  }
}
